// The round without signal: items are kept in this browser, entries wait here until the server has them. Each entry has a key of its own,
// so that sending it twice writes it once.
'use strict';
const KEPT = 'undercroft-round-1';
const at = id => document.getElementById(id);
const form = at('stop'), done = at('finished'), list = at('list');
let stops = [], here = 0, last = null, sending = false, camera = null;
const ounces = document.getElementById('gross')?.dataset.unit === 'oz'; // how this device likes its weights
const weight = typed => typed && ounces && /^[\d.,]+$/.test(typed) ? `${typed}oz` : typed; // a bare number is one of the unit beside it
const inches = document.getElementById('bulge')?.dataset.unit === 'in';
const dome = typed => typed && inches && /^[\d.,]+$/.test(typed) ? `${typed}in` : typed;
let dayOfDemo = null; // a demo has its own day; else an entry is of the day on which it was written, however long the page stood open

const base = new Promise((resolve, reject) => {
  const open = indexedDB.open('undercroft-round', 1);
  open.onupgradeneeded = () => {
    open.result.createObjectStore('queue', { keyPath: 'key' });
    open.result.createObjectStore('kept');
  };
  open.onsuccess = () => resolve(open.result);
  open.onerror = () => reject(open.error);
});
const store = async (name, mode, act) => {
  const transaction = (await base).transaction(name, mode);
  const asked = act(transaction.objectStore(name));
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve(asked && asked.result);
    transaction.onerror = transaction.onabort = () => reject(transaction.error);
  });
};
const waiting = () => store('queue', 'readonly', queue => queue.getAll());
const newKey = () => {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map(byte => byte.toString(16).padStart(2, '0')).join('');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
};

const localDay = () => {
  const now = new Date();
  return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-${String(now.getDate()).padStart(2, '0')}`;
};

async function tell() {
  const queue = await waiting();
  at('unsent').textContent = queue.length === 0 ? 'Everything is sent.' : `${queue.length} not yet sent.`;
  at('unsent').dataset.count = queue.length;
  const refused = queue.filter(entry => entry.refused);
  at('refused').hidden = refused.length === 0;
  at('refused-list').replaceChildren(...refused.map(entry => {
    const row = document.createElement('li');
    const drop = document.createElement('button');
    row.textContent = `${entry.id}: ${entry.refused} `;
    drop.type = 'button';
    drop.className = 'second';
    drop.textContent = 'Drop this entry';
    drop.addEventListener('click', async () => { await store('queue', 'readwrite', it => it.delete(entry.key)); await tell(); });
    row.append(drop);
    return row;
  }));
  at('back').disabled = !(last && queue.some(entry => entry.key === last.key));
}

// A network that is there and does not answer must not hold the rest up for ever.
const ask = (address, more) => fetch(address, { signal: AbortSignal.timeout(60000), ...more });

async function send() {
  if (sending) return;
  sending = true;
  try {
    const queue = (await waiting()).filter(entry => !entry.refused).sort((a, b) => a.n - b.n);
    const words = queue.filter(entry => !entry.photo);
    if (queue.length === 0 && !(await ask('/health', { cache: 'no-store' })).ok) throw new Error('no answer');
    if (words.length > 0) {
      const answer = await ask('/round/entries', { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(words.map(({ n, photo, refused, ...entry }) => entry)) });
      if (answer.status === 401) throw new Error('signed out');
      if (!answer.ok) throw new Error(await answer.text());
      for (const kept of await answer.json()) {
        if (kept.done) await store('queue', 'readwrite', it => it.delete(kept.key));
        else await store('queue', 'readwrite', it => it.put({ ...words.find(entry => entry.key === kept.key), refused: kept.refused }));
      }
    }
    for (const entry of queue.filter(entry => entry.photo)) {
      const answer = await ask(`/round/photo?Id=${encodeURIComponent(entry.id)}&On=${encodeURIComponent(entry.on)}`, { method: 'POST', headers: { 'Content-Type': 'application/octet-stream' }, body: entry.photo });
      if (answer.ok) await store('queue', 'readwrite', it => it.delete(entry.key));
      else if (answer.status === 422) {
        const refused = await answer.text();
        await store('queue', 'readwrite', it => it.put({ ...entry, refused }));
      }
      else throw new Error('not taken');
    }
    at('signal').textContent = 'The server answers.';
  } catch (fault) {
    at('signal').textContent = fault.message === 'signed out' ? 'Signed out: entries wait here until you sign in.' : 'No signal: entries wait here.';
  } finally {
    sending = false;
    await tell();
  }
}

function show() {
  const stop = stops[here];
  form.hidden = !stop;
  done.hidden = !!stop;
  if (!stop) return;
  form.reset();
  at('steps').textContent = `${here + 1} of ${stops.length} · ${stop.place}`;
  at('title').textContent = stop.title;
  at('code').textContent = stop.id;
  at('about').textContent = [stop.container, stop.reason].filter(Boolean).join(' · ');
  at('check').textContent = stop.check ? `Check: ${stop.check}. Bad if ${stop.badIf}.` : '';
  at('last-weight').textContent = stop.lastG ? ounces ? `Last: ${Math.round(stop.lastG / 28.349523125 * 100) / 100} oz` : `Last: ${Math.round(stop.lastG * 10) / 10} g` : '';
  window.scrollTo(0, 0);
}

async function write(well) {
  const said = new FormData(form), text = name => (said.get(name) || '').trim() || null;
  const findings = said.getAll('findings'), bulge = dome(text('bulge')), photo = at('photo').files[0];
  const entry = { key: newKey(), n: Date.now(), id: stops[here].id, on: dayOfDemo ?? localDay(), allWell: well && findings.length === 0 && !bulge, findings, gross: weight(text('gross')), humidity: text('humidity'), bulge, note: text('note') };
  const blank = !entry.allWell && findings.length === 0 && !entry.gross && !entry.humidity && !bulge && !entry.note;
  if (!blank) {
    await store('queue', 'readwrite', queue => queue.put(entry));
    last = entry;
  }
  if (photo) await store('queue', 'readwrite', queue => queue.put({ key: newKey(), n: Date.now() + 1, id: entry.id, on: entry.on, photo }));
  here++;
  show();
  await tell();
  await send();
}

async function fetchStops() {
  const minutes = at('away').dataset.minutes;
  try {
    const answer = await ask(`/round/stops.json?Minutes=${minutes}`);
    if (!answer.ok || answer.redirected) throw new Error('signed out');
    const round = await answer.json();
    await store('kept', 'readwrite', kept => kept.put(round, 'round'));
    return round;
  } catch {
    return await store('kept', 'readonly', kept => kept.get('round'));
  }
}

function closeCamera() {
  const video = at('camera');
  camera?.getTracks().forEach(track => track.stop());
  camera = video.srcObject = null;
  video.hidden = true;
  at('scan').textContent = 'Scan with the camera';
}

// The square is read here and not by the browser itself, few of which can; so it needs no signal either.
async function scan() {
  if (camera) { closeCamera(); return; }
  const video = at('camera'), note = at('scan-note');
  try {
    const { BarcodeDetector } = await import(at('away').dataset.reader);
    const reader = new BarcodeDetector({ formats: ['qr_code'] });
    camera = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } });
    note.textContent = 'Hold the square of a label into the picture.';
    at('scan').textContent = 'Stop the camera';
    video.hidden = false;
    video.srcObject = camera;
    await video.play();
    while (camera) {
      const code = (await reader.detect(video))[0]?.rawValue.trim().toUpperCase();
      const found = stops.findIndex(stop => stop.id === code);
      if (found >= 0) {
        closeCamera();
        note.textContent = `${code} was found.`;
        here = found;
        show();
      } else {
        if (code) note.textContent = `${code} is not on this round. It can be found online.`;
        await new Promise(resolve => setTimeout(resolve, 200));
      }
    }
  } catch {
    closeCamera();
    note.textContent = 'The camera could not be used. Type the code instead.';
  }
}

form.addEventListener('submit', event => { event.preventDefault(); write(event.submitter === at('well')); });
at('skip').addEventListener('click', () => { here++; show(); });
at('again').addEventListener('click', () => { here = 0; show(); });
at('send').addEventListener('click', send);
at('back').addEventListener('click', async () => {
  if (!last) return;
  await store('queue', 'readwrite', queue => queue.delete(last.key));
  here = Math.max(0, stops.findIndex(stop => stop.id === last.id));
  last = null;
  show();
  await tell();
});
at('forget').addEventListener('click', async () => {
  if ((await waiting()).length > 0 && !at('forget').dataset.sure) {
    at('forget').dataset.sure = 'yes';
    at('forget').textContent = 'Some entries are not sent and would be lost. Forget them all the same';
    return;
  }
  await store('queue', 'readwrite', queue => queue.clear());
  await store('kept', 'readwrite', kept => kept.clear());
  await caches.delete(KEPT);
  location.href = '/round';
});
at('find').addEventListener('change', () => {
  const typed = at('find').value.toUpperCase().replace(/[\s-]/g, '').replace(/O/g, '0').replace(/[IL]/g, '1');
  const found = stops.findIndex(stop => stop.id === typed);
  at('scan-note').textContent = found < 0 ? 'That code is not on this round. It can be found online.' : '';
  if (found >= 0) { here = found; at('find').value = ''; show(); }
});
if (navigator.mediaDevices) { // browsers offer a camera over TLS or on the machine itself alone
  at('scan').hidden = false;
  at('scan').addEventListener('click', scan);
}
window.addEventListener('online', send);
setInterval(send, 15000);

// Keeps this page and all that it is made of in the browser. A certificate that was waved through and is not trusted is enough for a page, not for this.
async function keep() {
  if (!('serviceWorker' in navigator)) return 'This browser keeps pages over TLS alone: without signal this one does not open again.';
  try {
    await navigator.serviceWorker.register('/sw.js');
  } catch {
    if (!await caches.has(KEPT)) return 'This browser does not keep the page: it does not trust the certificate of the server. Without signal it does not open again.';
  }
  await navigator.serviceWorker.ready;
  const reader = at('away').dataset.reader;
  const parts = [...document.querySelectorAll('link[rel=stylesheet], link[rel=icon], script[src]')].map(part => part.href || part.src);
  try { await (await caches.open(KEPT)).addAll([location.href, ...parts, reader, new URL('index.js', new URL(reader, location.href)).href]); } catch { /* no signal: what is kept stays */ }
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist();
  return 'Kept in this browser: it opens without signal.';
}

(async () => {
  at('kept').textContent = await keep();
  const round = await fetchStops();
  stops = round ? round.stops : [];
  dayOfDemo = round && round.demo ? round.today : null;
  list.textContent = stops.length === 0 ? 'Nothing is on this round.' : `${stops.length} on this round.`;
  show();
  await tell();
  await send();
  at('away').dataset.ready = 'yes';
})();

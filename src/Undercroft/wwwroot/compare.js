// Two pictures over each other with a slider between them. Without this script they stand side by side.
for (const box of document.querySelectorAll('[data-compare]')) {
  const slide = box.querySelector('.slide');
  const range = slide.querySelector('input');
  const over = box.querySelectorAll('img')[1];
  const show = () => { over.style.clipPath = `inset(0 0 0 ${range.value}%)`; };
  box.classList.add('sliding');
  slide.hidden = false;
  range.addEventListener('input', show);
  show();
}

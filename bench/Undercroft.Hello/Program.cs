Console.WriteLine("Hello.");

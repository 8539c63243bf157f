System.Console.WriteLine("benches");

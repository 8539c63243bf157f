System.Console.WriteLine("flowsim");

namespace Undercroft.Shell;

/// <summary>A call whose words do not fit together in a way that the parser cannot see; exit code 2.</summary>
/// <param name="message">What is wrong and how to write it.</param>
public sealed class WrongUsage(string message) : Exception(message);

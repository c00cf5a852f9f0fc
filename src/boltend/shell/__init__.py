"""The Textual shell: it shows and asks, and holds no arithmetic."""

"""The project file: model, strict reading, editing of the text, saving, recovery, undo."""

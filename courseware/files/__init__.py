"""Files and folders: banks found, sittings' folders, the record's place; all written whole or not at all."""

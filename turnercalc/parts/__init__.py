"""Parts of a turner: room around them; later holes, lengths and pieces. No drawing."""

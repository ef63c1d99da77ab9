"""Every plot there is: one file each, which offers `KIND`."""

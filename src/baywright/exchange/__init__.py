"""Tables that other programs write and read: Parquet and Arrow files of builds."""

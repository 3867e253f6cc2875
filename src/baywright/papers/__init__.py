"""Papers: sheets laid out for a browser and for print."""

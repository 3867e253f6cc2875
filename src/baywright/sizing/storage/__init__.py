"""Storage: links, arrays, rebuilds, odds of loss, wear, backups and energy packs."""

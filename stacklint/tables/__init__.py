"""Reference tables: woods, places, design values, drying times; each row with its source."""

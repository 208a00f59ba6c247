"""How boards dry: the air, the moisture content that it holds wood at, the days in yard and kiln."""

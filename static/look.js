/* Day or night as chosen on this device; without a choice the device's own setting holds. */
try {
	const look = localStorage.getItem('kithline-look');
	if (look === 'day' || look === 'night') document.documentElement.dataset.look = look;
} catch {
	/* Storage may be forbidden: then the device's setting holds. */
}

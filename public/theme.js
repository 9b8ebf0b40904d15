// Runs before the first paint so that neither the theme nor the unit flashes. Kept as a file: the
// content policy allows no inline script. localStorage may be refused; the device's own choice then holds.
(() => {
  const root = document.documentElement;
  root.dataset.script = 'on';
  root.dataset.unit = 'mm';
  try {
    const theme = localStorage.getItem('theme');
    if (theme === 'light' || theme === 'dark') root.dataset.theme = theme;
    if (localStorage.getItem('unit') === 'inch') root.dataset.unit = 'inch';
  } catch {}
})();

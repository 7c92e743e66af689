/** Light or dark: what the system asks, unless the user chose; the choice is kept. */
const KEY = 'heartside.theme';

export interface Theme {
  dark(): boolean;
  onChange(listener: (dark: boolean) => void): void;
}

export function openTheme(button: HTMLButtonElement): Theme {
  const system = matchMedia('(prefers-color-scheme: dark)');
  const listeners: ((dark: boolean) => void)[] = [];
  let chosen = localStorage.getItem(KEY);
  const dark = () => (chosen ? chosen === 'dark' : system.matches);

  function show() {
    if (chosen) document.documentElement.dataset.theme = chosen;
    else delete document.documentElement.dataset.theme;
    button.textContent = dark() ? 'Light' : 'Dark';
    button.setAttribute('aria-label', dark() ? 'Change to light' : 'Change to dark');
    for (const listener of listeners) listener(dark());
  }
  button.addEventListener('click', () => {
    chosen = dark() ? 'light' : 'dark';
    localStorage.setItem(KEY, chosen);
    show();
  });
  system.addEventListener('change', show);
  show();
  return { dark, onChange: (listener) => listeners.push(listener) };
}

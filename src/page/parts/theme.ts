import { signal } from '@preact/signals';

export const k_themes = { device: 'As the device', light: 'Light', dark: 'Dark' } as const;
export type Theme = keyof typeof k_themes;

const k_key = 'evenlit theme';

const isTheme = (text: string | null): text is Theme => text !== null && Object.hasOwn(k_themes, text);

function keptTheme(): Theme {
  try {
    const kept = localStorage.getItem(k_key);
    return isTheme(kept) ? kept : 'device';
  } catch {
    return 'device';
  }
}

export const theme = signal<Theme>(keptTheme());

const deviceIsDark = matchMedia('(prefers-color-scheme: dark)');

export function showChosenTheme(): void {
  const ofDevice = deviceIsDark.matches ? 'dark' : 'light';
  document.documentElement.dataset['theme'] = theme.value === 'device' ? ofDevice : theme.value;
}

deviceIsDark.addEventListener('change', showChosenTheme);

/** Where the browser keeps nothing, the theme holds until the page is left. */
export function chooseTheme(chosen: Theme): void {
  theme.value = chosen;
  showChosenTheme();
  try {
    localStorage.setItem(k_key, chosen);
  } catch {
    return;
  }
}

export function forgetTheme(): void {
  try {
    localStorage.removeItem(k_key);
  } catch {
    return;
  }
}

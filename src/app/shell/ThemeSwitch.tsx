import type { Theme } from '../kit/tokens.ts';
import { useView } from '../state/viewStore.ts';

const NEXT: Record<Theme, Theme> = { auto: 'light', light: 'dark', dark: 'auto' };
const SHAPES: Record<Theme, string> = {
  auto: 'M8 2a6 6 0 1 0 0 12zM8 2a6 6 0 0 1 0 12',
  light: 'M8 2a6 6 0 1 0 0 12a6 6 0 1 0 0-12',
  dark: 'M8 2a6 6 0 1 0 0 12a6 6 0 1 0 0-12z',
};

/** Switches the theme: auto (as the system), light, dark. */
export function ThemeSwitch() {
  const theme = useView((view) => view.theme);
  return (
    <button
      type="button"
      className="quiet theme"
      aria-label={`Theme: ${theme}`}
      title={`Theme: ${theme === 'auto' ? 'auto, as the system' : theme}`}
      onClick={() => useView.setState({ theme: NEXT[theme] })}
    >
      <svg viewBox="0 0 16 16" width="14" height="14" aria-hidden="true" data-theme-shown={theme}>
        <path d={SHAPES[theme]} />
      </svg>
    </button>
  );
}

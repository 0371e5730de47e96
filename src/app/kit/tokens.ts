import { createContext, useContext, useEffect, useLayoutEffect, useState } from 'react';

const NAMES = ['bench', 'sheet', 'ink', 'soft', 'accent', 'touch', 'tight'] as const;

/** Colours for drawing on canvases, from the style sheet of the active theme. */
export type Tokens = Readonly<Record<(typeof NAMES)[number], string>>;

type ActiveTheme = 'light' | 'dark';
/** The selected theme; `auto` follows the system. */
export type Theme = ActiveTheme | 'auto';

const DARK = '(prefers-color-scheme: dark)';

function useActiveTheme(theme: Theme): ActiveTheme {
  const [system, setSystem] = useState<ActiveTheme>(() => (matchMedia(DARK).matches ? 'dark' : 'light'));
  useEffect(() => {
    const query = matchMedia(DARK);
    const update = () => setSystem(query.matches ? 'dark' : 'light');
    query.addEventListener('change', update);
    return () => query.removeEventListener('change', update);
  }, []);
  return theme === 'auto' ? system : theme;
}

/** Applies a theme to the page and returns its colours; undefined until they are read from the style sheet. */
export function useTheme(theme: Theme): Tokens | undefined {
  const active = useActiveTheme(theme);
  const [tokens, setTokens] = useState<Tokens>();
  useLayoutEffect(() => {
    document.documentElement.dataset.theme = active;
    const style = getComputedStyle(document.documentElement);
    const read = NAMES.map((name) => [name, style.getPropertyValue(`--${name}`).trim()] as const);
    setTokens(Object.fromEntries(read) as Tokens);
  }, [active]);
  return tokens;
}

export const TokensContext = createContext<Tokens | undefined>(undefined);

export function useTokens(): Tokens {
  const tokens = useContext(TokensContext);
  if (tokens === undefined) throw new Error('useTokens must be used inside the workbench');
  return tokens;
}

export const prefersReducedMotion = (): boolean => matchMedia('(prefers-reduced-motion: reduce)').matches;

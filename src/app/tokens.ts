import { createContext, useContext, useEffect, useLayoutEffect, useState } from 'react';
import { useView } from './stores/viewStore.ts';

const NAMES = ['bench', 'sheet', 'ink', 'soft', 'accent', 'touch', 'tight'] as const;

/** Colours that canvases draw with, as the style sheet gives them for the theme in force. */
export type Tokens = Readonly<Record<(typeof NAMES)[number], string>>;

type InForce = 'light' | 'dark';

const DARK = '(prefers-color-scheme: dark)';

/** The theme in force: the person's choice, or the system's where that is `auto`. */
function useThemeInForce(): InForce {
  const theme = useView((view) => view.theme);
  const [system, setSystem] = useState<InForce>(() => (matchMedia(DARK).matches ? 'dark' : 'light'));
  useEffect(() => {
    const query = matchMedia(DARK);
    const follow = () => setSystem(query.matches ? 'dark' : 'light');
    query.addEventListener('change', follow);
    return () => query.removeEventListener('change', follow);
  }, []);
  return theme === 'auto' ? system : theme;
}

/** Sets the theme on the page and gives the colours that come of it; undefined until they are known. */
export function useTheme(): Tokens | undefined {
  const inForce = useThemeInForce();
  const [tokens, setTokens] = useState<Tokens>();
  useLayoutEffect(() => {
    document.documentElement.dataset.theme = inForce;
    const style = getComputedStyle(document.documentElement);
    const read = NAMES.map((name) => [name, style.getPropertyValue(`--${name}`).trim()] as const);
    setTokens(Object.fromEntries(read) as Tokens);
  }, [inForce]);
  return tokens;
}

export const TokensContext = createContext<Tokens | undefined>(undefined);

export function useTokens(): Tokens {
  const tokens = useContext(TokensContext);
  if (tokens === undefined) throw new Error('this component stands outside the workbench');
  return tokens;
}

export const prefersStill = (): boolean => matchMedia('(prefers-reduced-motion: reduce)').matches;

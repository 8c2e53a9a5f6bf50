import { createContext, type ReactNode, use, useCallback, useEffect, useMemo, useState } from 'react';
import type { UnitSystem } from '../format/measures.ts';

export type Theme = 'system' | 'light' | 'dark';

interface Settings {
  readonly units: UnitSystem;
  readonly theme: Theme;
  readonly chooseUnits: (units: UnitSystem) => void;
  readonly chooseTheme: (theme: Theme) => void;
}

const UNITS_KEY = 'brimline.units';
const THEME_KEY = 'brimline.theme';

const Context = createContext<Settings | null>(null);

/** Where the browser keeps no storage, choices last as long as the page. */
function stored(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

function store(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    return;
  }
}

const storedUnits = (): UnitSystem => (stored(UNITS_KEY) === 'si' ? 'si' : 'us');
const storedTheme = (): Theme => {
  const theme = stored(THEME_KEY);
  return theme === 'light' || theme === 'dark' ? theme : 'system';
};

export function SettingsProvider({ children }: { readonly children: ReactNode }) {
  const [units, setUnits] = useState(storedUnits);
  const [theme, setTheme] = useState(storedTheme);
  useEffect(() => {
    if (theme === 'system') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = theme;
  }, [theme]);
  const chooseUnits = useCallback((next: UnitSystem) => {
    store(UNITS_KEY, next);
    setUnits(next);
  }, []);
  const chooseTheme = useCallback((next: Theme) => {
    store(THEME_KEY, next);
    setTheme(next);
  }, []);
  const settings = useMemo(
    () => ({ units, theme, chooseUnits, chooseTheme }),
    [units, theme, chooseUnits, chooseTheme],
  );
  return <Context value={settings}>{children}</Context>;
}

export function useSettings(): Settings {
  const settings = use(Context);
  if (!settings) throw new Error('settings are read outside their provider');
  return settings;
}

export function useUnits(): UnitSystem {
  return useSettings().units;
}

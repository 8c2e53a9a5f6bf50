import '@fontsource-variable/encode-sans/wdth.css';
import './style/tokens.css';
import './style/base.css';
import './style/frame.css';
import './style/drawing.css';
import './style/pages.css';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { SettingsProvider } from './components/settings.tsx';
import { PlanSource } from './data/plan-source.ts';

const source = new PlanSource();
void source.load();

createRoot(document.getElementById('root')!).render(
  <SettingsProvider>
    <App source={source} />
  </SettingsProvider>,
);

import './bench.css';
import type { BenchFile, BenchTube, PlanEdit } from '../export/book/bench-data.js';
import { AT_FIRST, type BenchState } from './bench/bench-state.js';
import { connection } from './bench/connection.js';
import { editing } from './bench/editing.js';
import { openScreen } from './bench/screen.js';
import { THEME_STYLE } from './view/theme-style.js';
import type { View } from './view/view.js';
import { VIEW_STYLE } from './view/view-style.js';

declare global {
  interface Window {
    evenrunBench?: { readonly view: () => View | null };
  }
}

/** The live bench: shows what the server tells, tries changes, and has them written. */
function openPage(host: HTMLElement): void {
  const server = connection();
  let state = AT_FIRST;
  const set = (part: Partial<BenchState>): void => {
    state = { ...state, ...part };
    screen.show(state);
  };
  const edit = editing(server, { state: () => state, set, say: (words) => screen.say(words) });
  const take = ({ cylinder, inlet, points, clr }: BenchTube): void => {
    if (cylinder === null) return;
    edit.change({ edit: 'take-route', cylinder, inlet, points: points.map((p) => [...p]), clr: [...clr] } as PlanEdit);
    screen.scene.select(String(cylinder));
    screen.say(`The route of cylinder ${cylinder} is taken by hand: drag its points, or type them.`);
  };
  const screen = openScreen(host, { ...edit, save: () => void edit.save(), take, outputUrl: server.outputUrl });

  const hearFile = (file: BenchFile): void => {
    const isOther = file.base !== state.file.base;
    set({ file });
    if (!isOther || state.edits.length === 0 || file.base === '') return;
    screen.say(
      'The file was changed by somebody else. Your changes are kept here, not written: look, then save or discard.',
    );
    edit.again();
  };
  server.listen({
    file: hearFile,
    header: (header) => set({ header }),
    outputs: (outputs) => set({ outputs }),
    reached: (isReached) => set({ isReached }),
  });
  addEventListener('keydown', (e) => {
    if (!(e.ctrlKey || e.metaKey) || e.key.toLowerCase() !== 's') return;
    e.preventDefault();
    void edit.save();
  });
  addEventListener('beforeunload', (e) => {
    if (state.edits.length > 0) e.preventDefault();
  });
  window.evenrunBench = { view: screen.scene.view };
  screen.show(state);
}

// styles by the script's own sheet: the page allows no other than those of the server
const sheet = new CSSStyleSheet();
sheet.replaceSync(THEME_STYLE + VIEW_STYLE);
document.adoptedStyleSheets = [sheet];
document.head.append(Object.assign(document.createElement('meta'), { id: 'ev-style' }));
openPage(document.getElementById('bench')!);

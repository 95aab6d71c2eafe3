import './bench.css';
import type { BenchFile, BenchHeader, BenchOutputs, BenchTube, PlanEdit } from '../export/book/bench-data.js';
import type { SceneData } from '../export/book/scene-data.js';
import { connection } from './bench/connection.js';
import { type EditList, withEdit } from './bench/edit-list.js';
import { fieldForm } from './bench/field-form.js';
import { gapTable, lengthTable, type TableActions, verdict } from './bench/header-tables.js';
import { layOut } from './bench/layout.js';
import { findingList, outputList, problemList } from './bench/notes.js';
import { type PlanHandle, planHandles } from './bench/plan-handles.js';
import { renewer } from './bench/renew.js';
import { type Trial, trials } from './bench/trial.js';
import { THEME_STYLE } from './view/theme-style.js';
import { mountView, type View } from './view/view.js';
import { VIEW_STYLE } from './view/view-style.js';

declare global {
  interface Window {
    evenrunBench?: { readonly view: () => View | null };
  }
}

const NO_TRIAL: Trial = { header: null, editable: null, words: '', problems: [], waiting: false };
const NO_FILE: BenchFile = { name: '', base: '', state: 'routing', words: 'connecting', problems: [], editable: null };

/** The live bench: shows what the server tells, tries changes, and has them written. */
function openPage(host: HTMLElement): void {
  const server = connection();
  let file = NO_FILE;
  let header: BenchHeader | null = null;
  let outputs: BenchOutputs | null = null;
  let edits: EditList = [];
  let earlier: readonly EditList[] = [];
  let trial = NO_TRIAL;
  let view: View | null = null;
  let scene: SceneData | null = null;
  let handles: readonly PlanHandle[] = [];
  let isReached = true;
  let isSaving = false;

  const asking = trials(server, (part) => {
    trial = { ...trial, ...part };
    show();
    if (part.waiting === false && part.words === '' && trial.header) say(`With your changes: ${trial.header.verdict}`);
  });
  const layout = layOut(host, { save: () => void save(), undo, discard });
  const form = fieldForm(change);
  layout.fields.append(form.node);
  const actions: TableActions = {
    select: (tube) => view?.select(view.state().selected === tube ? null : tube),
    take,
    showGap: ({ tubes }) => view?.showClosest([tubes[0]!, tubes[1]!]),
  };
  const places = {
    verdict: renewer(layout.verdict, verdict),
    lengths: renewer(layout.lengths, (h: BenchHeader, lit: string | null) => lengthTable(h, lit, actions)),
    gaps: renewer(layout.gaps, (h: BenchHeader) => gapTable(h, actions)),
    findings: renewer(layout.findings, findingList),
    outputs: renewer(layout.outputs, (o: BenchOutputs, isOld: boolean) => outputList(o, isOld, server.outputUrl)),
  };

  function say(words: string): void {
    layout.said.textContent = words;
  }
  function setEdits(next: EditList): void {
    edits = next;
    if (edits.length === 0) {
      asking.forget();
      trial = NO_TRIAL;
    } else if (file.base !== '') asking.ask(file.base, edits);
    show();
  }
  function change(edit: PlanEdit, isGoingOn = false): void {
    if (!isGoingOn) earlier = [...earlier.slice(-99), edits];
    setEdits(withEdit(edits, edit));
  }
  function undo(): void {
    const last = earlier.at(-1);
    if (!last) return;
    earlier = earlier.slice(0, -1);
    setEdits(last);
    say(last.length === 0 ? 'All changes are undone.' : 'The last change is undone.');
  }
  function discard(): void {
    earlier = [];
    setEdits([]);
    say('The changes are discarded: this is the plan as it is written.');
  }
  function take({ cylinder, inlet, points, clr }: BenchTube): void {
    if (cylinder === null) return;
    change({ edit: 'take-route', cylinder, inlet, points: points.map((p) => [...p]), clr: [...clr] } as PlanEdit);
    view?.select(String(cylinder));
    say(`The route of cylinder ${cylinder} is taken by hand: drag its points, or type them.`);
  }
  async function save(): Promise<void> {
    if (edits.length === 0 || isSaving) return;
    isSaving = true;
    show();
    const written = edits;
    const answer = await server.save({ base: file.base, edits: written });
    isSaving = false;
    if (answer.answer === 'saved') {
      say(`Saved: ${answer.words}.`);
      earlier = [];
      file = { ...file, base: answer.base };
      setEdits(edits === written ? [] : edits);
      return;
    }
    trial = { ...trial, words: answer.words, problems: answer.answer === 'faulty' ? answer.problems : [] };
    say(`Not saved: ${answer.words}`);
    show();
  }

  function show(): void {
    const shownHeader = edits.length > 0 ? (trial.header ?? header) : header;
    const editable = (edits.length > 0 ? trial.editable : null) ?? file.editable;
    const isBuilt = edits.length === 0 && outputs?.state === 'built' && outputs.base === header?.base;
    form.set(editable);
    layout.title.textContent = shownHeader?.name ?? 'evenrun bench';
    layout.state.replaceChildren(stateWords());
    layout.save.disabled = edits.length === 0 || isSaving || file.base === '';
    layout.undo.disabled = earlier.length === 0;
    layout.discard.disabled = edits.length === 0;
    showTrouble();
    if (outputs) places.outputs(outputs, outputs.base !== file.base);
    if (!shownHeader) return;
    places.verdict(shownHeader);
    places.lengths(shownHeader, view?.state().selected ?? null);
    places.gaps(shownHeader);
    places.findings(isBuilt ? outputs!.findings : shownHeader.findings);
    showScene(isBuilt && outputs!.scene ? outputs!.scene : shownHeader.scene);
    showHandles(editable ? planHandles(editable, view?.state().selected ?? null) : []);
  }
  function showScene(next: SceneData): void {
    if (next === scene) return;
    scene = next;
    if (view) {
      view.setScene(next);
      return;
    }
    view = mountView(layout.view, next);
    layout.view.classList.add('is-there');
    view.onSelect(() => show());
    view.onHandle(({ id, at }) => dragged(id, at));
  }
  function showHandles(next: readonly PlanHandle[]): void {
    const isSame = JSON.stringify(next) === JSON.stringify(handles);
    handles = next;
    if (!isSame) view?.setHandles(handles);
  }
  let held = '';
  function dragged(id: string, at: readonly [number, number, number]): void {
    const handle = handles.find((h) => h.id === id);
    if (handle) change(handle.edit(at), held === id);
    held = id;
  }
  addEventListener('pointerup', () => {
    held = '';
  });

  function showTrouble(): void {
    const ofChange = edits.length > 0 && trial.words !== '';
    const ofFile =
      file.state === 'faulty' || file.state === 'no-route' || file.state === 'gone' || file.state === 'stopped';
    const last = header ? ' The last good result stays.' : '';
    layout.trouble.replaceChildren(
      ...(ofFile ? [problemList(`${TROUBLE[file.state]}${last}`, file.words, file.problems)] : []),
      ...(ofChange ? [problemList('Your change does not hold', trial.words, trial.problems)] : []),
    );
  }
  function stateWords(): string {
    if (!isReached) return 'The server is not there: start evenrun watch again.';
    if (edits.length > 0) {
      const count = `${edits.length} ${edits.length === 1 ? 'change' : 'changes'} not written`;
      if (trial.words !== '') return `${count}: does not hold`;
      return `${count}: ${trial.waiting ? 'routes follow \u2026' : 'routes as a build gives them'}`;
    }
    if (file.state === 'routing') return header ? `${file.name}: routing \u2026` : `${file.name} ${file.words} \u2026`;
    return file.state === 'routed'
      ? `${file.name}: routes as a build gives them`
      : `${file.name}: ${TROUBLE[file.state]}`;
  }

  server.listen({
    file: (now) => {
      const isOther = now.base !== file.base;
      file = now;
      if (isOther && edits.length > 0 && now.base !== '') {
        say(
          'The file was changed by somebody else. Your changes are kept here, not written: look, then save or discard.',
        );
        asking.ask(file.base, edits);
      }
      show();
    },
    header: (now) => {
      header = now;
      show();
    },
    outputs: (now) => {
      outputs = now;
      show();
    },
    reached: (now) => {
      isReached = now;
      show();
    },
  });
  addEventListener('keydown', (e) => {
    if (!(e.ctrlKey || e.metaKey) || e.key.toLowerCase() !== 's') return;
    e.preventDefault();
    void save();
  });
  addEventListener('beforeunload', (e) => {
    if (edits.length > 0) e.preventDefault();
  });
  window.evenrunBench = { view: () => view };
  show();
}

const TROUBLE: Readonly<Record<BenchFile['state'], string>> = {
  routing: '',
  routed: '',
  'no-route': 'No set of routes keeps all limits.',
  faulty: 'The plan is not sound.',
  gone: 'The plan file is not there.',
  stopped: 'The routing was stopped.',
};

// styles by the script's own sheet: the page allows no other than those of the server
const sheet = new CSSStyleSheet();
sheet.replaceSync(THEME_STYLE + VIEW_STYLE);
document.adoptedStyleSheets = [sheet];
document.head.append(Object.assign(document.createElement('meta'), { id: 'ev-style' }));
openPage(document.getElementById('bench')!);

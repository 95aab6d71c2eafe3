import type { BenchHeader, BenchOutputs, BenchTube } from '../../export/book/bench-data.js';
import { type BenchState, editableNow, headerNow, partsNow } from './bench-state.js';
import type { Editing } from './editing.js';
import { fieldForm } from './field-form.js';
import { gapTable, lengthTable, type TableActions, verdict } from './header-tables.js';
import { type Layout, layOut } from './layout.js';
import { findingList, outputList, problemList } from './notes.js';
import { planHandles } from './plan-handles.js';
import { renewer } from './renew.js';
import { type SceneView, sceneView } from './scene-view.js';
import { stateWords, troublesOf } from './state-words.js';

/** What the screen hands on. */
export interface ScreenActions extends Pick<Editing, 'change' | 'undo' | 'discard'> {
  readonly save: () => void;
  /** The route of a tube is to be given by hand. */
  readonly take: (tube: BenchTube) => void;
  /** Address of a file that was built. */
  readonly outputUrl: (id: number) => string;
}

/** The page as people see it. */
export interface Screen {
  readonly show: (state: BenchState) => void;
  /** Words that are read out. */
  readonly say: (words: string) => void;
  readonly scene: SceneView;
}

/** Puts the page into a host: it shows what it is given, only what differs is made anew. */
export function openScreen(host: HTMLElement, act: ScreenActions): Screen {
  const layout = layOut(host, act);
  const form = fieldForm(act.change);
  layout.fields.append(form.node);
  let last: BenchState | null = null;
  const scene = sceneView(layout.view, { selected: () => last && show(last), changed: act.change });
  const tables = tablesOf(layout, scene, act);

  function show(state: BenchState): void {
    last = state;
    const header = headerNow(state);
    const editable = editableNow(state);
    form.set(editable);
    layout.title.textContent = header?.name ?? 'evenrun bench';
    layout.state.replaceChildren(stateWords(state));
    layout.trouble.replaceChildren(...troublesOf(state).map((t) => problemList(t.title, t.words, t.problems)));
    layout.save.disabled = state.edits.length === 0 || state.isSaving || state.file.base === '';
    layout.undo.disabled = state.earlier.length === 0;
    layout.discard.disabled = state.edits.length === 0;
    if (state.outputs) tables.outputs(state.outputs, state.outputs.base !== state.file.base);
    if (!header) return;
    const parts = partsNow(state);
    tables.verdict(header);
    tables.lengths(header, scene.selected());
    tables.gaps(header);
    tables.findings(parts ? parts.findings : header.findings);
    scene.show(parts?.scene ?? header.scene);
    scene.setHandles(editable ? planHandles(editable, scene.selected()) : []);
  }
  return {
    show,
    say: (words) => {
      layout.said.textContent = words;
    },
    scene,
  };
}

/** The tables and lists beside the picture. */
function tablesOf(layout: Layout, scene: SceneView, { take, outputUrl }: ScreenActions) {
  const actions: TableActions = {
    select: (tube) => scene.select(scene.selected() === tube ? null : tube),
    take,
    showGap: ({ tubes }) => scene.showClosest([tubes[0]!, tubes[1]!]),
  };
  return {
    verdict: renewer(layout.verdict, verdict),
    lengths: renewer(layout.lengths, (h: BenchHeader, lit: string | null) => lengthTable(h, lit, actions)),
    gaps: renewer(layout.gaps, (h: BenchHeader) => gapTable(h, actions)),
    findings: renewer(layout.findings, findingList),
    outputs: renewer(layout.outputs, (o: BenchOutputs, isOld: boolean) => outputList(o, isOld, outputUrl)),
  };
}

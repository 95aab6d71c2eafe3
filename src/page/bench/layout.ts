import { button, element } from '../view/element.js';

/** The places of the page that are filled later. */
export interface Layout {
  readonly title: HTMLElement;
  readonly state: HTMLElement;
  readonly said: HTMLElement;
  readonly view: HTMLElement;
  readonly trouble: HTMLElement;
  readonly verdict: HTMLElement;
  readonly lengths: HTMLElement;
  readonly gaps: HTMLElement;
  readonly findings: HTMLElement;
  readonly outputs: HTMLElement;
  readonly fields: HTMLElement;
  readonly save: HTMLButtonElement;
  readonly undo: HTMLButtonElement;
  readonly discard: HTMLButtonElement;
}

/** What the buttons do. */
export interface LayoutActions {
  readonly save: () => void;
  readonly undo: () => void;
  readonly discard: () => void;
}

/** Builds the page into a host. */
export function layOut(host: HTMLElement, act: LayoutActions): Layout {
  const place = (className: string): HTMLElement => element('div', { class: className });
  const layout: Layout = {
    title: element('h1', {}, 'evenrun bench'),
    state: element('p', { class: 'state', role: 'status' }),
    said: element('p', { class: 'said', 'aria-live': 'polite' }),
    view: place('view-host'),
    trouble: element('div', { class: 'trouble-place', role: 'alert' }),
    verdict: place('verdict-place'),
    lengths: place('scrolls'),
    gaps: place('scrolls'),
    findings: place('findings-place'),
    outputs: place('outputs-place'),
    fields: place('fields-place'),
    save: button('Save to plan', act.save, { class: 'main' }),
    undo: button('Undo', act.undo),
    discard: button('Discard', act.discard),
  };
  const section = (title: string, ...inner: Node[]): HTMLElement =>
    element('section', {}, element('h2', {}, title), ...inner);
  host.append(
    element(
      'header',
      { class: 'top' },
      element('div', { class: 'names' }, layout.title, layout.state),
      element(
        'div',
        { class: 'buttons', role: 'group', 'aria-label': 'Changes' },
        layout.save,
        layout.undo,
        layout.discard,
      ),
      layout.said,
    ),
    element(
      'main',
      {},
      element('div', { class: 'left' }, layout.trouble, layout.view),
      element(
        'div',
        { class: 'right' },
        section('Equal length', layout.verdict, layout.lengths),
        section('Change', layout.fields),
        section('Clearances', layout.gaps),
        section('Checks', layout.findings),
        section('Parts and files', layout.outputs),
      ),
    ),
  );
  return layout;
}

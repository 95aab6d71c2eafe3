import { shortHash } from '../../params/text/plan-hash.js';
import type { OutputFile } from '../output-file.js';
import { bendsSection } from './bends-section.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { checksSection } from './checks-section.js';
import { clearancesSection } from './clearances-section.js';
import { alternativesSection, cautionsSection, filesSection, planSection } from './closing-sections.js';
import { collectorsSection } from './collectors-section.js';
import { cutSection } from './cut-section.js';
import { drawingsSection } from './drawings-section.js';
import { lengthsSection } from './lengths-section.js';
import { pageText } from './page.js';
import { patternsSection } from './patterns-section.js';
import { stockSection } from './stock-section.js';
import { verdictHead } from './verdict-section.js';
import { viewSection } from './view-section.js';

/** Where the book lies and what it is, for the summary that is written before it. */
export const BOOK = { path: 'book.html', kind: 'book' } as const;

/** The build book: everything of a build in one page to open, turn and print. The same build gives the same bytes. */
export function bookFile(input: BookInput): OutputFile {
  const { plan, scene, page } = input;
  const text = pageText({
    title: plan.name,
    head: verdictHead(input),
    sections: sectionsOf(input),
    foot: `${plan.name}, plan ${shortHash(plan.hash)}. Made by evenrun.`,
    data: scene === null ? {} : { scene },
    script: page.script,
  });
  return { ...BOOK, bytes: new TextEncoder().encode(text) };
}

/** In the order they are read. */
function sectionsOf(input: BookInput): BookSection[] {
  const all: (BookSection | null)[] = [
    lengthsSection(input),
    clearancesSection(input),
    viewSection(input),
    drawingsSection(input),
    collectorsSection(input),
    cutSection(input),
    stockSection(input),
    bendsSection(input),
    patternsSection(input),
    checksSection(input),
    ...input.sections,
    alternativesSection(input),
    cautionsSection(input.summary.cautions),
    planSection(input),
    filesSection(input),
  ];
  return all.filter((s) => s !== null);
}

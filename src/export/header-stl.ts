import { asStlReaderSees } from '../geometry/mesh/validate.js';
import { partOfPath } from '../geometry/path/path.js';
import { sweepTube } from '../geometry/sweep/tube.js';
import { CHORD_ERROR } from '../geometry/tolerance.js';
import { type Collector, standingCollector } from '../parts/collector/collector.js';
import { soundBody } from '../parts/printed-part.js';
import type { TubeCuts } from '../parts/tube/tube-cuts.js';
import type { RoutedTube } from '../routing/routed.js';
import type { RoutedParts } from './book/scene.js';
import { flangeSolids, plateSolids } from './book/scene-metal.js';
import type { OutputFile } from './output-file.js';
import { type NamedMesh, stlOfBodies } from './print/stl.js';

/** A routed header with what is made of it. */
export interface HeaderParts extends Pick<RoutedParts, 'plan' | 'primaries' | 'secondaries' | 'flanges'> {
  readonly cuts: readonly TubeCuts[];
  readonly collectors: readonly Collector[];
}

/**
 * header.stl: the header in steel as it stands on the engine, in the plan's coordinates, mm, for other drawing programs and checks of
 * clashes there. Its bodies, each closed: the stretches of one size of every tube, hollow, from where the first piece starts to the
 * collector inlet, as routed, without weld gaps; collectors; flanges; plates that have a place. Bodies touch and are not joined. Facets
 * stray at most CHORD_ERROR from the true surface.
 */
export function headerStl({ plan, primaries, secondaries, flanges, cuts, collectors }: HeaderParts): OutputFile {
  const tubes = [...primaries, ...secondaries].flatMap((t) => tubeBodies(t, cuts.find((c) => c.tube === t.id)!.start));
  const plates = [...flangeSolids(plan, flanges), ...plateSolids(plan)];
  const bodies = [
    ...tubes,
    ...collectors.map((c): NamedMesh => ({ name: c.plan.name, mesh: standingCollector(c) })),
    ...plates.map(({ name, solid }): NamedMesh => ({ name, mesh: soundBody(solid, name) })),
  ];
  return { path: 'header.stl', kind: 'header-model', bytes: stlOfBodies(bodies, 'header') };
}

/** The stretches of a tube beyond `start` mm of its running length; what is shorter than facets stray is left out. */
function tubeBodies({ name, path, length, sections }: RoutedTube, start: number): NamedMesh[] {
  return sections.flatMap(({ from, od, wall }, i): NamedMesh[] => {
    const [begin, end] = [Math.max(from, start), sections[i + 1]?.from ?? length];
    if (end - begin < CHORD_ERROR) return [];
    return [{ name, mesh: asStlReaderSees(sweepTube(partOfPath(path, begin, end), od / 2, od / 2 - wall)) }];
  });
}

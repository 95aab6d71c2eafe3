/** What mends a check that does not hold, by the name of the check or of its family; the longest name that fits is taken. */
const MENDS: Readonly<Record<string, string>> = {
  'equal-length':
    'Let the router find new routes: free the collector or the length in the plan, or allow a wider runners.spread.',
  'route.': 'Take the given route out of the plan, or give it the ends that head and collector have.',
  'collector.order': 'Allow another order: collector.order free, or the cylinders named in another order.',
  'collector.pairing': 'Pair other cylinders by the firing order.',
  'collector.diffuser': 'Lengthen the cone or the diffuser, or lessen the outlet.',
  'collector.throat': 'Open the throat.',
  'collector.branch': 'Turn or move the branch about the collector, or lengthen the cone.',
  'clearance.':
    'Move the collector or the keep-out, allow another inlet order, or lessen the clearance if the parts allow it. Nothing hot belongs nearer than its shielding allows.',
  'bend.straight': 'Lessen tube.min_straight where the shop can cut and weld it, or give the route more room.',
  'bend.angle': 'List stock that bends further or with this radius under tube.bends.',
  'bend.small': 'Pull the tube straight when tacking, or move the collector a little.',
  'tube.step': 'Move the step, or give the route a straight where it falls.',
  'flange.bolt-growth': 'Choose a fixed bolt nearer the middle, or take slots or a coarser bolt_fit.',
  'flange.cut-tolerance':
    'Transfer the holes from the head itself, have it cut to class 1, or take a coarser bolt_fit.',
  'flange.bolt': 'Check with the real fastener and socket; move the bolt, or turn or shorten the weld there.',
  'flange.torch-reach': 'Weld the inner sides before the neighbour is fitted, or spread the tubes at the flange.',
  'flange.': 'Change edge_width, web or the style of the flange in the plan, or move what lies too near.',
  'opening.': 'Match the opening (flange.opening), or dress the ledge by hand so that nothing stands in the gas.',
  'plate.': 'Give the plate more edge or another pattern.',
  'sheet.fit': 'Take a larger sheet under drawing.sheet, or cut the part from its own piece.',
  'stock.': 'List stock that makes the piece under bends or sticks, or make more of it available.',
  'jig.bed': 'Give the bed of a larger printer under jig, or print the part elsewhere.',
  'jig.strut': 'Give jig.strut the size that is named, or shim the holder by hand.',
  'jig.overhang': 'Print with support where the slicer shows it.',
  'jig.first-layer': 'Print with a brim.',
  'jig.': 'Look at the part before it is printed; what does not fit is filed off.',
  'plan.note': 'Look at the drawing or scan that the plan names.',
};

/** What to do about a check that fails or wants a look. */
export function whatToDo(id: string): string {
  const names = Object.keys(MENDS).filter((name) => id.startsWith(name));
  const nearest = names.reduce((best, name) => (name.length > best.length ? name : best), '');
  return MENDS[nearest] ?? 'Change what the plan says of it and build again.';
}

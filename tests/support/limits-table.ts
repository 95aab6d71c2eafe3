import type * as limits from '../../src/params/limits.js';

type Limit = keyof typeof limits;

/** What each cap is, as the guide says it; a cap without a row does not compile. */
const WORDS: Readonly<Record<Limit, string>> = {
  LARGEST_PLAN_FILE: 'Plan or as-built file, bytes',
  LARGEST_TRACE_FILE: 'Drawing or list of traced points, bytes',
  LARGEST_MESH_FILE: 'Scan, bytes',
  LARGEST_SWEEP_FILE: 'Part of a sweep that is merged, bytes',
  LARGEST_SUMMARY: 'Summary of an earlier build that is read again, bytes',
  LARGEST_PAGE: 'Earlier page that `evenrun compare` replaces, bytes',
  LARGEST_LOCK: 'Lock beside a folder, bytes',
  DEEPEST_NESTING: 'Levels of nesting in a plan file',
  MOST_ALIASES: 'Places that repeat an anchored part (`*name`)',
  MOST_PROBLEMS: 'Problems reported at once',
  LONGEST_NAME: 'Name, characters',
  LONGEST_PATH: 'Path of a file the plan names, characters',
  LARGEST_LENGTH: 'Length or coordinate, mm',
  MOST_CYLINDERS: 'Cylinders, and so ports',
  MOST_INLETS: 'Tubes one collector joins',
  MOST_STEPS: 'Times a primary grows',
  MOST_KEEP_OUTS: 'Keep-outs',
  MOST_TRIANGLES: 'Triangles of all scans together',
  MOST_PLUGS: 'Spark plugs on one head',
  MOST_BOLTS: 'Bolts on one head',
  MOST_TRACED_POINTS: 'Corners of a traced port after fitting',
  MOST_ENTITIES: 'Entities of a drawing',
  MOST_TRACE_POINTS: 'Points of a trace, and sides of all contours of a drawing',
  MOST_ROUTE_POINTS: 'Points or rows of a route given by hand',
  LARGEST_WELD_ALLOWANCE: 'Root gap and shrinkage of a weld, mm',
  MOST_MEASURED_TUBES: 'Tubes of an as-built file',
  MOST_MEASURED_PIECES: 'Pieces of one tube in an as-built file',
  MOST_STOCK_BENDS: 'Bends of stock under a tube',
  MOST_STOCK_STICKS: 'Lengths of straight stock under a tube',
  MOST_OWN_STOCK: "Entries of one of the plan's own stock tables",
  MOST_PRICE: 'Price of one piece of stock',
  MOST_AVAILABLE: 'Pieces of one kind of stock a shop counts',
  MOST_PLATES: 'Plates',
  MOST_PLATE_BOLTS: 'Bolts of one plate',
  MOST_COPIES: 'Pieces of one plate, and sets of all parts on a sheet',
  MOST_BLOCK_BOLTS: "Bolts on the block a collector's holder stands on",
  MOST_FABRICATED: "Pieces wanted beside the header's own (`patterns.extra`)",
  MOST_MITRES: 'Joints of a mitred bend',
  MOST_EXISTING_PARTS: 'Sections, and bends, of one way of the existing manifold',
  TUNED_LENGTHS: 'Primary a tuning rule may ask for, mm',
  MOST_ALTERNATIVES: 'Sets of routes of one plan (`--alternatives`)',
  MOST_COMPARED: 'Headers in one comparison',
  MOST_PLANS: 'Plans of one batch',
  MOST_JOBS: 'Plans built at a time (`--jobs`)',
  MOST_SWEPT_VALUES: 'Values of one field of a sweep',
  MOST_DESIGNS: 'Designs of a sweep',
};

const figure = (value: number): string => value.toLocaleString('en-US');

/** The rows of the guide on limits, from the caps themselves. */
export const limitRows = (caps: typeof limits): readonly string[] =>
  (Object.keys(WORDS) as Limit[]).map((name) => {
    const cap = caps[name];
    const most = typeof cap === 'number' ? figure(cap) : `${figure(cap.from)} to ${figure(cap.to)}`;
    return `| ${WORDS[name]} | ${most} |`;
  });

/** Largest length or coordinate a plan may hold, mm: ten metres, far above any header and far below where rounding shows. */
export const LARGEST_LENGTH = 10_000;

/** Most cylinders of an engine, and so most ports. */
export const MOST_CYLINDERS = 16;

/** Most tubes one collector joins. */
export const MOST_INLETS = 6;

/** Most times a primary grows. */
export const MOST_STEPS = 3;

/** Most keep-outs of a plan. */
export const MOST_KEEP_OUTS = 100;

/** Most triangles of a scan, and of all scans of a plan together. */
export const MOST_TRIANGLES = 2_000_000;

/** Largest scan file, bytes: as many triangles in the binary form take 100 MB, in text rather more. */
export const LARGEST_MESH_FILE = 200_000_000;

/** Most spark plugs on one head: two a cylinder. */
export const MOST_PLUGS = 2 * MOST_CYLINDERS;

/** Most bolts on one head. */
export const MOST_BOLTS = 100;

/** Most corners of a traced port. */
export const MOST_TRACED_POINTS = 500;

/** Largest file of a drawing or of traced points, bytes. */
export const LARGEST_TRACE_FILE = 20_000_000;

/** Most entities of a drawing. */
export const MOST_ENTITIES = 100_000;

/** Most points of a trace, and sides of all contours of a drawing. */
export const MOST_TRACE_POINTS = 20_000;

/** Most intersection points or rows of a route given by hand. */
export const MOST_ROUTE_POINTS = 30;

/** Largest root gap and shrinkage of a weld, mm. */
export const LARGEST_WELD_ALLOWANCE = 10;

/** Most tubes of an as-built file: a primary and a secondary for every cylinder. */
export const MOST_MEASURED_TUBES = 2 * MOST_CYLINDERS;

/** Most pieces of one tube in an as-built file. */
export const MOST_MEASURED_PIECES = 100;

/** Most bends of stock listed under the tube. */
export const MOST_STOCK_BENDS = 8;

/** Most problems that are reported at once. */
export const MOST_PROBLEMS = 200;

/** Largest plan file, bytes. */
export const LARGEST_PLAN_FILE = 1_000_000;

/** Most places that may repeat an anchored part of the file (`*name`). */
export const MOST_ALIASES = 50;

/** Deepest nesting of a plan file; the plan itself needs about eight levels. */
export const DEEPEST_NESTING = 60;

/** Most plates of a plan. */
export const MOST_PLATES = 20;

/** Most bolts of one plate. */
export const MOST_PLATE_BOLTS = 16;

/** Most pieces of one plate, and most sets of all parts on a sheet. */
export const MOST_COPIES = 50;

/** Most lengths of straight stock listed under a tube. */
export const MOST_STOCK_STICKS = 8;

/** Most entries of one of the plan's own stock tables. */
export const MOST_OWN_STOCK = 50;

/** Largest price of one piece of stock. */
export const MOST_PRICE = 1_000_000;

/** Most pieces of one kind of stock a shop counts. */
export const MOST_AVAILABLE = 10_000;

/** Most bolts on the block a collector's holder may stand on. */
export const MOST_BLOCK_BOLTS = 8;

/** Most pieces a plan wants patterns for beside the header's own. */
export const MOST_FABRICATED = 40;

/** Most sections, and bends, of one way of the existing manifold. */
export const MOST_EXISTING_PARTS = 40;

/** Shortest and longest primary that a tuning rule may ask for, mm from the head face: beyond them the numbers it is given are not an engine's. */
export const TUNED_LENGTHS = { from: 100, to: 3000 } as const;

/** Most joints of a mitred bend. */
export const MOST_MITRES = 40;

/** Longest name, and longest path of a file the plan goes with, characters. */
export const LONGEST_NAME = 80;
export const LONGEST_PATH = 400;

/** Most different sets of routes of one plan. */
export const MOST_ALTERNATIVES = 20;

/** Most headers in one page of a comparison: more cannot be told apart in a table or over each other. */
export const MOST_COMPARED = 6;

/** Most plans of one batch, and most that are built at a time. */
export const MOST_PLANS = 10_000;
export const MOST_JOBS = 256;

/** Most values of one field of a sweep, and most designs of all together. */
export const MOST_SWEPT_VALUES = 10_000;
export const MOST_DESIGNS = 10_000_000;

/** Largest file of a sweep that is merged, bytes. */
export const LARGEST_SWEEP_FILE = 500_000_000;

/** Largest summary of an earlier build that is read again, bytes: one of sixteen tubes has a tenth of it. */
export const LARGEST_SUMMARY = 20_000_000;

/** Largest page of an earlier comparison that is replaced, bytes. */
export const LARGEST_PAGE = 200_000_000;

/** Largest lock file beside a folder, bytes: a process and a machine. */
export const LARGEST_LOCK = 10_000;

import type { Frame } from '../geometry/frame.js';
import type { Mesh } from '../geometry/mesh.js';
import type { Outline } from '../geometry/outline.js';
import type { Vec2 } from '../geometry/vec2.js';
import type { Vec3 } from '../geometry/vec3.js';
import type { CutClass, DowelPlan, FlangeStyle, GrowthPlan, NotchPlan, OpeningPlan } from './flange-plan.js';
import type { ExistingManifold, TuningPlan } from './tuning-plan.js';

export type { LengthRuleName } from './tuning-plan.js';

/** A plan as every later stage sees it: validated, millimetres, radians, unit directions, defaults filled in. */
export interface Plan {
  readonly name: string;
  /** SHA-256 of the plan's text and of the files it names, in hex: says which plan a paper belongs to. */
  readonly hash: string;
  /** Unit the plan was written in: what people's reports use beside mm. */
  readonly units: 'mm' | 'in';
  readonly engine: Engine;
  readonly heads: readonly Head[];
  /** Every port of every head, by cylinder number. */
  readonly ports: readonly Port[];
  readonly flange: FlangePlan;
  readonly tube: TubePlan;
  readonly collectors: readonly CollectorPlan[];
  readonly runners: RunnersPlan;
  /** Tubes from one collector's outlet to the next collector; null when no collector feeds another. */
  readonly secondaries: SecondaryPlan | null;
  readonly keepOuts: readonly KeepOut[];
  /** Room for spark plug and flange bolt tools. */
  readonly access: readonly Access[];
  readonly jig: JigPlan;
  /** What reading the files it names found: gaps closed, points fitted; one sentence each. */
  readonly notes: readonly string[];
  /** Plates beside the head flanges: collector, turbine inlet, rings, slip joints. */
  readonly plates: readonly PlatePlan[];
  /** Null when none are wanted. */
  readonly gaskets: GasketsPlan | null;
  readonly drawing: DrawingPlan;
  readonly weld: WeldPlan;
  readonly stock: StockPlan;
  readonly patterns: PatternPlan;
  readonly tuning: TuningPlan;
  /** The manifold the builder has; null when it is not described. */
  readonly existing: ExistingManifold | null;
}

/** What the butt welds of the tubes add and take, mm: shop values, measured on the shop's own welds. */
export interface WeldPlan {
  /** Root gap left between two pieces. */
  readonly gap: number;
  /** How much one weld draws its pieces together. */
  readonly shrinkage: number;
  readonly fillerDiameter: number;
}

export type EngineLayout = 'single' | 'inline' | 'vee' | 'flat';

export interface Engine {
  readonly cylinders: number;
  readonly layout: EngineLayout;
  readonly firingOrder: readonly number[];
  /** mm. */
  readonly bore: number;
  /** mm. */
  readonly stroke: number;
  /** Angle between the banks, rad; 0 for one bank. */
  readonly bankAngle: number;
  readonly compressionRatio: number | null;
  readonly cam: CamTiming | null;
  readonly rpm: { readonly power: number; readonly limit: number } | null;
}

/** Valve events in crank radians, each counted the usual way from its dead centre. */
export interface CamTiming {
  readonly exhaustOpensBeforeBdc: number;
  readonly exhaustClosesAfterTdc: number;
  readonly intakeOpensBeforeTdc: number;
  readonly intakeClosesAfterBdc: number;
  /** mm, null when not given. */
  readonly exhaustLift: number | null;
}

/** One head face with what stands on it. */
export interface Head {
  readonly name: string;
  /** z leaves the head, x runs along the crank, y is up along the face. The face is z = 0. */
  readonly frame: Frame;
  readonly bolts: readonly FlangeBolt[];
  /** The metal behind the face that no tube may enter: null means the whole half-space behind the face; else a box in the head's frame. */
  readonly body: HeadBody | null;
}

export interface HeadBody {
  /** Lowest and highest x and y, mm, in the head's frame. */
  readonly from: Vec2;
  readonly to: Vec2;
  /** How far the metal reaches behind the face, mm. */
  readonly depth: number;
}

export interface FlangeBolt {
  /** On the head face, mm, in the head's frame. */
  readonly at: Vec2;
  readonly thread: string;
  /** Clearance hole, mm: ISO 273 by thread and fit unless the plan gives its own. */
  readonly holeDiameter: number;
  /** Nominal thread diameter, mm. */
  readonly threadDiameter: number;
  /** Outside diameter of the socket that turns it, mm. */
  readonly socketDiameter: number;
}

export interface Port {
  readonly cylinder: number;
  /** Index into `Plan.heads`. */
  readonly head: number;
  /** Centre on the head face, mm, in the head's frame. */
  readonly at: Vec2;
  /** World frame at the centre of the port on the head face; z is the way the gas leaves. */
  readonly frame: Frame;
  /** Outline on the head face about the port's centre, counter-clockwise, mm, in the head's x and y. */
  readonly outline: Outline;
  /** Shape in words for reports: 'oval 44 x 36 mm'. */
  readonly shape: string;
  /** Length of the port inside the head, mm; only tuning uses it. */
  readonly lengthInHead: number | null;
}

export interface FlangePlan {
  /** mm. */
  readonly thickness: number;
  readonly material: string;
  /** Least metal from an opening to the outside, mm. */
  readonly portEdge: number;
  /** Least metal from a bolt hole to the outside, mm. */
  readonly boltEdge: number;
  /** Least metal between two openings or holes, mm. */
  readonly web: number;
  /** Fillet radius at inner corners of the outline, mm. */
  readonly fillet: number;
  readonly opening: OpeningPlan;
  readonly style: FlangeStyle;
  readonly dowels: readonly DowelPlan[];
  readonly notches: readonly NotchPlan[];
  /** What head and flange do when hot; null leaves the bolt holes as they are. */
  readonly growth: GrowthPlan | null;
  readonly boltFit: 'fine' | 'medium' | 'coarse';
  /** Leg of the fillet weld between tube and flange, mm. */
  readonly weldLeg: number;
  /** Least gap between neighbouring tubes at the flange that a torch reaches into, mm. */
  readonly torchGap: number;
  /** Holes below this many plate thicknesses are centre-marked and drilled. */
  readonly leastCutHole: number;
  /** Tolerance class of the cut, ISO 9013. */
  readonly cutClass: CutClass;
  /** Width of the cut, mm, and whether the outlines are moved by half of it or left to the CAM. */
  readonly kerf: { readonly width: number; readonly compensate: boolean };
}

export interface TubePlan {
  /** Outside diameter, mm. */
  readonly od: number;
  /** mm. */
  readonly wall: number;
  readonly material: string;
  readonly bends: readonly StockBend[];
  readonly sticks: readonly StockStick[];
  /** Where primaries grow, nearest the head first; empty for one bore throughout. */
  readonly steps: readonly TubeStep[];
  /** Least straight between two bends, mm. */
  readonly minStraight: number;
  /** Least straight from the outer face of the flange, mm. */
  readonly minStraightPort: number;
  /** Least straight before the collector inlet, mm. */
  readonly minStraightInlet: number;
}

/** A larger tube from a running length on. The joint falls on a straight. */
export interface TubeStep {
  /** Running length from the head face, mm. */
  readonly at: number;
  /** How far to either side of `at` the joint may fall, mm. */
  readonly within: number;
  readonly od: number;
  readonly wall: number;
  readonly bends: readonly StockBend[];
  readonly sticks: readonly StockStick[];
}

/** The tubes between collectors of a 4-2-1. */
export interface SecondaryPlan {
  /** Target length of every secondary, from outlet to inlet plane, mm. */
  readonly length: number;
  /** Largest allowed spread, mm. */
  readonly tolerance: number;
  readonly od: number;
  readonly wall: number;
  readonly bends: readonly StockBend[];
  readonly sticks: readonly StockStick[];
}

/** Bent stock the shop can get. */
export interface StockBend {
  readonly clr: number;
  /** Largest angle that can be cut from it, rad. */
  readonly maxAngle: number;
  /** Straight leg on one end of the bend, mm: a J-bend's long one. */
  readonly leg: number;
  /** Straight leg on the other end, mm: as long as `leg` on a U-bend. */
  readonly shortLeg: number;
  /** 'NPS 2 elbow, 90 deg, long radius' where the table of elbows gave the sizes. */
  readonly elbow?: string | undefined;
  /** As the plan calls it. */
  readonly name?: string | undefined;
  /** Of one, in the plan's currency. */
  readonly price?: number | undefined;
  /** How many there are; as many as wanted when undefined. */
  readonly available?: number | undefined;
}

/** Straight stock the shop can get. */
export interface StockStick {
  /** mm. */
  readonly length: number;
  readonly name?: string | undefined;
  readonly price?: number | undefined;
  readonly available?: number | undefined;
}

/** How stock is cut and what of it is made least. */
export interface StockPlan {
  /** Width of the saw cut, mm. */
  readonly kerf: number;
  /** Shortest end the saw's vice holds, mm: lost on every stick. */
  readonly grip: number;
  /** Offcuts at least this long are kept, mm. */
  readonly leastOffcut: number;
  readonly minimise: 'pieces' | 'price';
  readonly currency: string | null;
  /** Of the tube, kg/m3; null where the material's name says. */
  readonly density: number | null;
}

export interface CollectorPlan {
  readonly name: string;
  /** Cylinders whose primaries join here, in cylinder order; empty when secondaries join here. */
  readonly cylinders: readonly number[];
  /** Names of the collectors whose secondaries join here; empty when primaries join here. */
  readonly from: readonly string[];
  /** World frame at the centre of the inlet plane; z is the way of the gas, x points to inlet 1. */
  readonly frame: Frame;
  /** Gap between neighbouring tubes at the inlet plane, mm. */
  readonly inletGap: number;
  /** Angle between an inlet's axis and the collector's axis, rad. */
  readonly mergeHalfAngle: number;
  readonly order: InletOrder;
  readonly outlet: CollectorOutlet;
  /** Whether a filler closes the hole the tubes leave between them at the inlet plane. */
  readonly centre: 'open' | 'spike';
  /** Sleeves that slip over the tubes' ends; null when the tubes are welded on. */
  readonly slip: SlipPlan | null;
  /** A pipe that leaves the collector, to a wastegate say; null for none. */
  readonly branch: BranchPlan | null;
  /** How far the collector may move from `frame`; null when it is fixed. */
  readonly freedom: CollectorFreedom | null;
}

/** The solver may place the collector within these bounds to win clearance. */
export interface CollectorFreedom {
  /** Lowest and highest offset of the inlet plane's centre, mm, along the world's axes. */
  readonly from: Vec3;
  readonly to: Vec3;
  /** Half-angle of the cone about the planned direction, rad. */
  readonly tilt: number;
  /** True when it may turn about its axis. */
  readonly turns: boolean;
}

export type InletOrder =
  | { readonly kind: 'free' }
  | { readonly kind: 'firing' }
  /** Cylinder at inlet 1, 2, ...; for a collector fed by others: numbers from 1 in the order of `from`. */
  | { readonly kind: 'given'; readonly cylinders: readonly number[] };

export interface CollectorOutlet {
  readonly od: number;
  readonly wall: number;
  /** Length of the cone from the merge to the outlet, or to the throat where there is one, mm. */
  readonly coneLength: number;
  /** Straight pipe after the cone or the diffuser, mm. */
  readonly tail: number;
  /** What follows the cone of a venturi; null for a plain cone. */
  readonly throat: ThroatPlan | null;
}

/** The narrowest place of a venturi and the diffuser from there to the outlet, mm. */
export interface ThroatPlan {
  readonly bore: number;
  /** Straight length of the throat. */
  readonly length: number;
  /** 0 where the throat is as wide as the outlet. */
  readonly diffuserLength: number;
}

/** Sleeves over the ends of the tubes at a collector's inlets, mm. */
export interface SlipPlan {
  /** How far a sleeve reaches back over its tube. */
  readonly overlap: number;
  /** Gap per side. */
  readonly fit: number;
}

/** A round pipe that leaves a collector through its side, mm and rad. */
export interface BranchPlan {
  readonly od: number;
  readonly wall: number;
  /** Between its way out and the collector's gas. */
  readonly angle: number;
  /** Where its axis meets the collector's, from the inlet plane. */
  readonly at: number;
  /** About the collector's axis from inlet 1, right-handed about the gas. */
  readonly clocking: number;
  /** From the collector's axis to its open end, along its own axis. */
  readonly length: number;
  readonly on: 'cone' | 'tail';
}

export interface RunnersPlan {
  /** Target length of every primary, mm: where a band is allowed, its middle; NaN, which no stage takes for a length, until tuning has fixed it where `tuned`. */
  readonly length: number;
  /** True where the length comes from a published rule, `Plan.tuning.rule`. */
  readonly tuned: boolean;
  /** Shortest and longest common length the solver may choose, mm; null when the length is fixed. */
  readonly band: { readonly from: number; readonly to: number } | null;
  /** Largest allowed spread, mm. */
  readonly tolerance: number;
  /** Least gap between the skins of two primaries, mm. */
  readonly clearance: number;
  /** Primaries routed by hand; the others are routed automatically. */
  readonly given: readonly GivenRoute[];
  /** Seed of the route search: the same plan gives the same routes. */
  readonly seed: number;
  readonly weights: RouteWeights;
  /** Longest the search may take, s. */
  readonly budget: number;
}

/** What makes one route better than another, each as the mm of clearance-like cost it is worth. */
export interface RouteWeights {
  /** Each bend: a cut and a weld more. */
  readonly bend: number;
  /** Each radian of bending. */
  readonly turning: number;
  /** Each radian at a CLR of one OD; less for larger radii. */
  readonly tightness: number;
  /** A gap at its limit. */
  readonly closeness: number;
  /** Each piece of stock begun. */
  readonly scrap: number;
}

/** A route given by hand as intersection points; LRA rows are turned into points when the plan is read. */
export interface GivenRoute {
  readonly cylinder: number;
  /** Inlet number from 1, or null when the order decides. */
  readonly inlet: number | null;
  readonly points: readonly Vec3[];
  readonly clr: readonly number[];
}

interface KeepOutCommon {
  readonly name: string;
  /** Least gap from a tube's skin, mm; for what must stay cool at least the plan's hot-tube distance. */
  readonly clearance: number;
  /** True for what must stay cool: hoses, wiring, starter, master cylinder. */
  readonly heat: boolean;
}

export type KeepOut =
  | (KeepOutCommon & {
      readonly kind: 'box' /** Lowest and highest corner, mm. */;
      readonly from: Vec3;
      readonly to: Vec3;
    })
  | (KeepOutCommon & {
      readonly kind: 'cylinder' /** Centres of the end faces, mm. */;
      readonly from: Vec3;
      readonly to: Vec3;
      readonly diameter: number;
    })
  | (KeepOutCommon & {
      readonly kind: 'capsule' /** Centres of the end spheres, mm. */;
      readonly from: Vec3;
      readonly to: Vec3;
      readonly diameter: number;
    })
  | (KeepOutCommon & {
      readonly kind: 'half-space' /** A point of the plane, mm, and the unit normal that points to the free side. */;
      readonly point: Vec3;
      readonly normal: Vec3;
    })
  | (KeepOutCommon & {
      readonly kind: 'mesh' /** As the plan names it. */;
      readonly file: string /** In the world, mm. */;
      readonly mesh: Mesh;
    });

/** A straight cylinder that a tool needs: no tube may enter it. */
export interface Access {
  /** 'plug of cylinder 2', 'bolt 3'. */
  readonly name: string;
  /** Where it begins; z is the way the tool comes out. */
  readonly frame: Frame;
  /** mm. */
  readonly diameter: number;
  /** mm. */
  readonly length: number;
}

export interface JigPlan {
  /** Unit the titles of its parts say lengths in: the plan's. */
  readonly units: 'mm' | 'in';
  /** Usable size of the printer, mm: x, y, height. */
  readonly bed: Vec3;
  /** Gap per side where printed parts slide together, mm. */
  readonly fit: number;
  /** Thickness of printed plates, mm. */
  readonly plate: number;
  /** Length of the key at a dummy tube's joint, mm. */
  readonly keyLength: number;
  /** Diameter of the struts of the collector holders, mm; null leaves it to the program. */
  readonly strut: number | null;
  /** Least gap between parts on a build plate, mm. */
  readonly gap: number;
  /** Against the first layer's bulge, mm; 0 without. */
  readonly chamfer: number;
  readonly print: PrintPlan;
  /** Jigs for tacking on the bench; null when none are wanted. */
  readonly bench: BenchPlan | null;
  /** How dummy tubes hold together: pressed, slid and glued, or slid and screwed across the key. */
  readonly joint: 'press' | 'slide' | 'screw';
  /** Gap per side of a pressed joint, mm. */
  readonly pressFit: number;
  /** Wall of hollow dummy tubes, mm; null prints them solid. */
  readonly tubeWall: number | null;
  /** Diameter of what is threaded through the dummies' centreline, mm; null without. */
  readonly cord: number | null;
  /** Unit of the scale along the dummy tubes; null without. */
  readonly scale: 'mm' | 'in' | null;
  /** Cut lines, clocking lines and joints' names on the dummy tubes. */
  readonly marks: boolean;
  /** Feet that carry the first piece of every primary at its angle; null without. */
  readonly foot: JigFoot | null;
  /** Where the collectors' holders stand besides the flange; null: on the flange's bolts. */
  readonly holder: JigHolder | null;
  /** A comb where primaries run close. */
  readonly comb: boolean;
}

/** How the parts are printed. */
export interface PrintPlan {
  /** Lines in a wall. */
  readonly walls: number;
  /** mm. */
  readonly lineWidth: number;
  /** Share of the inside that is plastic. */
  readonly infill: number;
  /** Height of a layer, mm. */
  readonly layer: number;
  /** kg/m3. */
  readonly density: number;
  /** Solid layers at the bottom and at the top. */
  readonly solidLayers: number;
  /** Walls and solid layers, mm3/s on average. */
  readonly flow: number;
  /** Filling, mm3/s on average. */
  readonly infillFlow: number;
  /** Time every layer costs beside its plastic, s. */
  readonly layerTime: number;
  /** Lean from upright that prints without support, rad. */
  readonly overhang: number;
  /** Area of a part that may lean out further unremarked, mm2. */
  readonly mostOverhang: number;
  /** Area a part stands on the bed with to hold, mm2. */
  readonly leastFoot: number;
}

/** Printed jigs that hold and mark the steel pieces on the bench. */
export interface BenchPlan {
  readonly saddles: boolean;
  readonly sleeves: boolean;
  readonly clockingRings: boolean;
  /** The plate the saddles stand on: distance and diameter of its holes, thickness, mm. */
  readonly base: { readonly pitch: number; readonly hole: number; readonly thickness: number };
  /** No saddle stands nearer than this to a joint along the tube, mm. */
  readonly torchRoom: number;
}

/** Feet under the first pieces. */
export interface JigFoot {
  /** Bolts of the head, from 1, they may stand on; null: any. */
  readonly bolts: readonly number[] | null;
}

/** Bolts on the block that the holder of one collector stands on instead of the flange's. */
export interface JigHolder {
  /** Index into `Plan.collectors`. */
  readonly collector: number;
  readonly bolts: readonly BlockBolt[];
}

/** A threaded hole beside the head that may carry a holder's foot. */
export interface BlockBolt {
  /** Where its axis meets the face, world, mm; z of the frame leaves the face. */
  readonly frame: Frame;
  readonly holeDiameter: number;
  readonly threadDiameter: number;
}

/** A plate of a parametric pattern, or a joint described by numbers alone. */
export interface PlatePlan {
  readonly name: string;
  /** Names of the collectors whose outlets end in it, in the order of its openings. */
  readonly feeds: readonly string[];
  /** Pieces to make. */
  readonly count: number;
  /** mm. */
  readonly thickness: number;
  readonly material: string;
  /** Least metal from a bolt hole to the outside, mm. */
  readonly edge: number;
  /** Least metal from an opening to the outside, mm. */
  readonly throatEdge: number;
  /** Least metal between two openings or holes, mm: the flange's. */
  readonly web: number;
  /** Radius of the waist between bolts, mm; null for straight sides from boss to boss. */
  readonly fillet: number | null;
  /** True when a gasket of it is wanted, where the plan wants gaskets of plates. */
  readonly gasket: boolean;
  readonly pattern: PlatePattern;
}

/** Bolts of a plate. */
export interface PlateBolts {
  readonly thread: string;
  /** Clearance hole, mm: ISO 273 by thread and fit unless the plan gives its own. */
  readonly holeDiameter: number;
}

export type PlatePattern =
  | {
      readonly kind: 'rectangle_four_bolt';
      readonly bolts: PlateBolts;
      /** Distance of the bolts across and up, mm. */
      readonly boltX: number;
      readonly boltY: number;
      readonly throat: PlateThroat;
    }
  | {
      readonly kind: 'triangle_three_bolt' | 'round';
      readonly bolts: PlateBolts;
      readonly count: number;
      /** mm. */
      readonly boltCircle: number;
      /** Turns the bolts counter-clockwise from one straight up, rad. */
      readonly clocking: number;
      readonly throat: PlateThroat;
      /** Outside diameter of a round plate, mm; null when the bolts decide. */
      readonly od: number | null;
    }
  | {
      readonly kind: 'oval_two_bolt';
      readonly bolts: PlateBolts;
      /** mm. */
      readonly boltSpacing: number;
      /** Turns the line of bolts counter-clockwise from level, rad. */
      readonly clocking: number;
      readonly throat: PlateThroat;
    }
  /** Blank for the ring that is welded to a tube and held by a V-band clamp. */
  | { readonly kind: 'vband_bore'; readonly bore: number; readonly od: number }
  /** A sleeve over a tube's end. `fit` is the gap per side; all mm. */
  | {
      readonly kind: 'slip_joint';
      readonly tubeOd: number;
      readonly wall: number;
      readonly overlap: number;
      readonly fit: number;
    };

export type PlateThroat =
  | { readonly kind: 'round'; readonly diameter: number }
  | { readonly kind: 'open'; readonly width: number; readonly height: number; readonly cornerRadius: number }
  /** Two openings side by side with a web between them; width and height over both. */
  | {
      readonly kind: 'divided';
      readonly width: number;
      readonly height: number;
      readonly web: number;
      readonly cornerRadius: number;
    };

export interface GasketsPlan {
  /** True for a gasket of every head flange, of every plate. */
  readonly flanges: boolean;
  readonly plates: boolean;
  /** Openings of the gasket are larger by this all round, mm. */
  readonly grow: number;
  /** mm. */
  readonly thickness: number;
  readonly material: string;
}

/** How flat parts are drawn for the cutter and printed. */
export interface DrawingPlan {
  readonly units: 'mm' | 'in';
  readonly version: 'r2007' | 'r12';
  readonly curves: 'polylines' | 'lines_and_arcs';
  readonly paper: 'a4' | 'letter';
  /** True to mark numbers, the way up and the name on the part as single strokes. */
  readonly engrave: boolean;
  /** Null when parts are not laid out on sheets. */
  readonly sheet: SheetPlan | null;
}

export interface SheetPlan {
  /** mm. */
  readonly size: Vec2;
  /** Least gap between parts, mm. */
  readonly gap: number;
  /** Least gap to the edge of the sheet, mm. */
  readonly margin: number;
  /** Sets of all parts. */
  readonly count: number;
}

/** How flat developments are laid out, and for which pieces beside the header's own. */
export interface PatternPlan {
  /** Side of the tube the paper lies on. */
  readonly wrap: 'outside' | 'inside';
  /** Strip beyond once round that is glued under the other end, mm. */
  readonly tab: number;
  /** Thickness of the paper, mm. */
  readonly paper: number;
  /** Unit that what is written on them says lengths in: the plan's. */
  readonly units: 'mm' | 'in';
  readonly extra: readonly FabricatedPiece[];
}

interface Fabricated {
  readonly name: string;
  readonly count: number;
}

/** Sizes of a sheet piece are those of its outside, inside or middle face; all mm. */
interface SheetPiece extends Fabricated {
  readonly measured: 'outside' | 'inside' | 'middle';
  readonly thickness: number;
  readonly material: string;
  readonly height: number;
}

interface TubePiece extends Fabricated {
  readonly od: number;
  readonly wall: number;
}

/** A piece the builder wants a pattern for; mm, rad. */
export type FabricatedPiece =
  | (SheetPiece & { readonly kind: 'frustum'; readonly from: number; readonly to: number })
  /** Parallel circles whose centres stand apart by `offset`. */
  | (SheetPiece & { readonly kind: 'eccentric'; readonly from: number; readonly to: number; readonly offset: number })
  | (SheetPiece & {
      readonly kind: 'square_to_round';
      readonly width: number;
      readonly depth: number;
      readonly cornerRadius: number;
      readonly diameter: number;
      /** Of the circle's centre from the rectangle's. */
      readonly offset: Vec2;
    })
  /** A tube cut by one plane, `angle` from square across. */
  | (TubePiece & { readonly kind: 'mitre'; readonly angle: number })
  | (TubePiece & {
      readonly kind: 'pie_cut';
      readonly clr: number;
      readonly turn: number;
      readonly joints: number;
    })
  /** A branch set on a host: axes `angle` apart, a quarter turn is square, and `offset` past each other. */
  | (TubePiece & {
      readonly kind: 'saddle';
      readonly hostOd: number;
      readonly hostWall: number;
      readonly angle: number;
      readonly offset: number;
    });

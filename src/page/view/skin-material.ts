import { Color, DoubleSide, FrontSide, MeshLambertMaterial, type Plane } from 'three';
import { PATTERNS, type Pattern } from './palette.js';

/** What a material of ours can be told after it is made. */
export interface Surface {
  readonly material: MeshLambertMaterial;
  /** Colour of cut metal: what is seen of a back face. */
  readonly cut: { value: Color };
  readonly pattern: { value: number };
  readonly lit: { value: number };
}

/** A dull surface with a flat colour for its back, which is seen only where a section opens a solid. */
export function plainSurface(colour: string, opacity: number): Surface {
  return surface(colour, opacity, { place: false, dashed: false });
}

/** A tube's skin: a pattern of lines by running length and turn, or dashes with gaps for a tube laid over another. */
export function tubeSurface(colour: string, pattern: Pattern, dashed = false): Surface {
  const made = surface(colour, 1, { place: true, dashed });
  made.pattern.value = PATTERNS.indexOf(pattern);
  return made;
}

interface Kind {
  readonly place: boolean;
  readonly dashed: boolean;
}

function surface(colour: string, opacity: number, kind: Kind): Surface {
  const cut = { value: new Color('#888888') };
  const pattern = { value: 0 };
  const lit = { value: 0 };
  const material = new MeshLambertMaterial({ color: colour });
  setOpacity(material, opacity);
  material.customProgramCacheKey = () => `${kind.place}${kind.dashed}`;
  material.onBeforeCompile = (shader) => {
    Object.assign(shader.uniforms, { cut, pattern, lit });
    shader.vertexShader = shader.vertexShader
      .replace(
        '#include <common>',
        `#include <common>\n${kind.place ? 'attribute vec2 place; varying vec2 vPlace;' : ''}`,
      )
      .replace('#include <begin_vertex>', `#include <begin_vertex>\n${kind.place ? 'vPlace = place;' : ''}`);
    shader.fragmentShader = shader.fragmentShader
      .replace('#include <common>', `#include <common>\n${HEAD}${kind.place ? 'varying vec2 vPlace;' : ''}`)
      .replace(
        '#include <color_fragment>',
        `#include <color_fragment>\n${kind.place ? LINES : ''}${kind.dashed ? DASHES : ''}`,
      )
      .replace('#include <opaque_fragment>', `#include <opaque_fragment>\n${BACK}`);
  };
  return { material, cut, pattern, lit };
}

/** Opaque materials write depth; those seen through do not, so that nothing hides behind them. */
export function setOpacity(material: MeshLambertMaterial, opacity: number): void {
  const through = opacity < 1;
  if (material.transparent !== through) material.needsUpdate = true;
  material.opacity = opacity;
  material.transparent = through;
  material.depthWrite = !through;
}

/** Cuts a surface open; only then its back is drawn. */
export function cutBy({ material }: Surface, planes: readonly Plane[]): void {
  const side = planes.length > 0 ? DoubleSide : FrontSide;
  if (material.side !== side) material.needsUpdate = true;
  material.side = side;
  material.clippingPlanes = [...planes];
}

const HEAD = 'uniform vec3 cut; uniform int pattern; uniform float lit;';

/** Spacing, mm along the tube and parts of a turn, is wide enough to be seen with the whole header in view. */
const LINES = `
float line = pattern == 1 ? fract(vPlace.x / 22.0)
  : pattern == 2 ? fract(vPlace.x / 44.0 + vPlace.y)
  : pattern == 3 ? fract(vPlace.y * 5.0) : 1.0;
if (line < 0.2) diffuseColor.rgb = mix(diffuseColor.rgb, vec3(1.0), 0.42);
diffuseColor.rgb = mix(diffuseColor.rgb, vec3(1.0), lit);`;

const DASHES = 'if (fract(vPlace.x / 18.0) > 0.55) discard;';

const BACK = 'if (!gl_FrontFacing) gl_FragColor = vec4(cut, diffuseColor.a);';

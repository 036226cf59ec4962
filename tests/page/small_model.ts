// A model of one wall and one lamp, as small as can be.

type Json = unknown;

export const k_description: Json = {
  bufferViews: [
    { byteOffset: 0, byteLength: 36 },
    { byteOffset: 36, byteLength: 24 },
    { byteOffset: 60, byteLength: 12 },
    { byteOffset: 72, byteLength: 16 },
  ],
  accessors: [
    { bufferView: 0, byteOffset: 0, count: 3 },
    { bufferView: 1, byteOffset: 0, count: 3 },
    { bufferView: 2, byteOffset: 0, count: 3 },
  ],
  meshes: [
    {
      primitives: [{ attributes: { POSITION: 0, TEXCOORD_0: 1 }, indices: 2, material: 0 }],
      extras: { kind: 'surface' },
    },
    { primitives: [{ attributes: { POSITION: 0 }, indices: 2, material: 1 }], extras: { kind: 'opening' } },
  ],
  materials: [
    { extras: { reflectance: 0.5, tint_linear_rgb: [1, 1, 1] } },
    { extras: { reflectance: 0.3, tint_linear_rgb: [1, 1, 1] }, doubleSided: true },
  ],
  extras: {
    evenlit: {
      format: 'evenlit room model',
      version: 1,
      light_texture: { width: 2, height: 1 },
      groups: [{ circuit: 'ceiling', cans: [1], level: 1, tint_linear_rgb: [1, 1, 1], light_buffer_view: 3 }],
      openings: [
        { group: 0, mesh: 1, centre_m: [1, 1, 2], aim: [0, 0, -1], step_deg: 90, luminance_cd_m2: [100, 50, 0] },
      ],
      moods: [{ name: 'evening', levels: [0.25] }],
      exposures: {
        own_levels: { adaptation_cd_m2: 10, scale_m2_per_cd: 0.1, white: 2, colour_gains: [1, 1, 1] },
        moods: null,
      },
      views: [{ name: 'door', eye_m: [1, 0, 1], toward: [0, 1, 0], width_deg: 80 }],
    },
  },
};

/** The same with another value at a path; undefined: none. */
export function withPart(json: Json, path: readonly (string | number)[], value: unknown): Json {
  const copy: Json = structuredClone(json);
  const last = path.at(-1) ?? '';
  const holder = path
    .slice(0, -1)
    .reduce<Json>((of, key) => (typeof of === 'object' && of ? Reflect.get(of, key) : null), copy);
  if (typeof holder !== 'object' || holder === null) throw new Error(`there is no ${path.join('.')}`);
  Reflect.set(holder, last, value);
  return copy;
}

/** Header and chunks of glTF 2.0, chapter 4, with one triangle and a texture of two texels. */
export function glb(json: Json, triangle: readonly number[] = [0, 1, 2]): Uint8Array {
  const text = new TextEncoder().encode(JSON.stringify(json));
  const jsonBytes = Math.ceil(text.length / 4) * 4;
  const binaryBytes = 88;
  const bytes = new Uint8Array(12 + 8 + jsonBytes + 8 + binaryBytes).fill(0x20);
  const view = new DataView(bytes.buffer);
  const words = (at: number, values: readonly number[]): void =>
    values.forEach((value, i) => view.setUint32(at + 4 * i, value, true));
  const floats = (at: number, values: readonly number[]): void =>
    values.forEach((value, i) => view.setFloat32(at + 4 * i, value, true));
  words(0, [0x46546c67, 2, bytes.length, jsonBytes, 0x4e4f534a]);
  bytes.set(text, 20);
  words(20 + jsonBytes, [binaryBytes, 0x004e4942]);
  const binary = 28 + jsonBytes;
  floats(binary, [0, 1, 0, 2, 1, 0, 2, 1, 2]);
  floats(binary + 36, [0, 0, 1, 0, 1, 1]);
  words(binary + 60, triangle);
  return bytes;
}

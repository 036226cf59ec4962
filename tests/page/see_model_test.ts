import assert from 'node:assert/strict';
import { test } from 'node:test';
import { BrokenModel, modelOf } from '../../src/page/views/see_model';
import { glb, k_description, withPart } from './small_model';

test('a model is read as it was written', () => {
  const model = modelOf(glb(k_description));
  const [wall, lamp] = model.faces;
  assert.deepEqual([...(wall?.corners_m ?? [])], [0, 1, 0, 2, 1, 0, 2, 1, 2]);
  assert.deepEqual([...(wall?.places ?? [])], [0, 0, 1, 0, 1, 1]);
  assert.deepEqual([...(wall?.triangles ?? [])], [0, 1, 2]);
  assert.equal(wall?.reflectance, 0.5);
  assert.equal(wall?.showsBothSides, false);
  assert.equal(lamp?.places, null);
  assert.equal(lamp?.showsBothSides, true);
  assert.equal(model.groups[0]?.texels.length, 8);
  assert.equal(model.groups[0]?.circuit, 'ceiling');
  assert.deepEqual(model.moods.get('evening'), [0.25]);
  assert.equal(model.exposure.white, 2);
  assert.equal(model.moodsExposure, null);
});

test('a view that the job does not name has words for its button', () => {
  const unnamed = withPart(k_description, ['extras', 'evenlit', 'views', 0, 'name'], '');
  assert.equal(modelOf(glb(unnamed)).views[0]?.name, 'from the door or a corner');
});

test('bytes may begin anywhere in the memory that they came in', () => {
  const bytes = glb(k_description);
  const moved = new Uint8Array(bytes.length + 1);
  moved.set(bytes, 1);
  assert.deepEqual(modelOf(moved.subarray(1)), modelOf(bytes));
});

test('a file that ends anywhere before its end is refused', () => {
  const bytes = glb(k_description);
  for (let length = 0; length < bytes.length; length += 3) {
    assert.throws(() => modelOf(bytes.slice(0, length)), BrokenModel, `${length} bytes`);
  }
});

test('what points out of the file, or is missing, is refused', () => {
  const broken: readonly (readonly [readonly (string | number)[], unknown])[] = [
    [['bufferViews', 0, 'byteOffset'], 1e9],
    [['bufferViews', 0, 'byteOffset'], 2],
    [['bufferViews', 2, 'byteLength'], 1e9],
    [['bufferViews', 3, 'byteLength'], 8],
    [['accessors', 0, 'count'], 1000],
    [['accessors', 0, 'count'], -1],
    [['accessors', 0, 'bufferView'], 9],
    [['accessors', 1, 'count'], 2],
    [['accessors', 2, 'count'], 2],
    [['meshes', 0, 'primitives'], null],
    [['meshes', 0, 'primitives', 0, 'material'], 7],
    [['meshes', 0, 'extras', 'kind'], 'ghost'],
    [['materials', 0, 'extras', 'reflectance'], 'half'],
    [['extras', 'evenlit', 'version'], 2],
    [['extras', 'evenlit', 'groups', 0, 'light_buffer_view'], 0.5],
    [['extras', 'evenlit', 'light_texture', 'width'], 3],
    [['extras', 'evenlit', 'openings', 0, 'group'], 1],
    [
      ['extras', 'evenlit', 'exposures', 'own_levels', 'colour_gains'],
      [1, 1],
    ],
    [['extras', 'evenlit', 'views'], undefined],
  ];
  for (const [path, value] of broken) {
    assert.throws(() => modelOf(glb(withPart(k_description, path, value))), BrokenModel, path.join('.'));
  }
});

test('a corner that no face has is refused', () => {
  assert.throws(() => modelOf(glb(k_description, [0, 1, 3])), BrokenModel);
});

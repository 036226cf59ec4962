// What the screen shows of a model, point by point: light of all groups, mixed as the engine mixes its pictures, then
// shown as the engine shows them. The veil that bright openings draw over what is near them in the eye is not in a model,
// so that pictures of the engine are a little paler there.

export const k_vertex_shader = `#version 300 es
in vec3 corner_m;
in vec2 corner_place;
in vec4 corner_material; // tint, reflectance
uniform mat4 picture;
centroid out vec2 place;
flat out vec4 material;
void main() {
  place = corner_place;
  material = corner_material;
  gl_Position = picture * vec4(corner_m, 1.0);
}`;

/** @param groups of light, at least 1 */
export const fragmentShader = (groups: number): string => `#version 300 es
precision highp float;
precision highp sampler2DArray;
const float k_pi = 3.14159265;
const vec3 k_luminance_of_rgb = vec3(0.2126, 0.7152, 0.0722);
const float k_tiny = 1e-20;
const float k_trace = 1e-6; // of white, where a tint has nothing of a surface's colour
uniform sampler2DArray lights_lx;
uniform vec4 groups[${groups}]; // tint, level
uniform vec3 glow_cd_m2;        // of an opening
uniform float scale;
uniform float white;
uniform vec3 gains;
centroid in vec2 place;
flat in vec4 material;
out vec4 shown_rgb;

vec3 reflected_cd_m2() {
  vec3 sum = vec3(0.0);
  for (int i = 0; i < ${groups}; ++i) {
    if (groups[i].a == 0.0) continue;
    vec3 lx = texture(lights_lx, vec3(place, float(i))).rgb;
    float luminance = dot(k_luminance_of_rgb, lx) * material.a / k_pi;
    vec3 colour = lx * material.rgb * groups[i].rgb + k_trace * dot(k_luminance_of_rgb, lx);
    sum += groups[i].a * luminance / (dot(k_luminance_of_rgb, colour) + k_tiny) * colour;
  }
  return sum;
}

// As \`displayed\` of the engine: luminance by scale and shoulder; colour by what the eye is used to; what a screen cannot
// show fades toward grey.
vec3 displayed(vec3 rgb_cd_m2) {
  const float k_always_kept = 0.35;
  vec3 adapted = gains * rgb_cd_m2;
  float seen = max(0.0, dot(k_luminance_of_rgb, adapted));
  float light = min(max(0.0, dot(k_luminance_of_rgb, rgb_cd_m2)) * scale, white);
  float shown = min(light * (1.0 + light / (white * white)) / (1.0 + light), 1.0);
  vec3 off = shown / (seen + k_tiny) * adapted - shown;
  float most = max(max(off.r, off.g), off.b);
  float least = min(min(off.r, off.g), off.b);
  float above = (1.0 - shown) / max(most, 1.0 - shown + k_tiny);
  float below = shown / max(-least, shown + k_tiny);
  float kept = min(max(sqrt(above), k_always_kept), below);
  return (shown + kept * off) / max(1.0, shown + kept * most);
}

vec3 encoded(vec3 linear) {
  vec3 share = clamp(linear, 0.0, 1.0);
  return mix(1.055 * pow(share, vec3(1.0 / 2.4)) - 0.055, 12.92 * share, lessThanEqual(share, vec3(0.0031308)));
}

void main() {
  shown_rgb = vec4(encoded(displayed(reflected_cd_m2() + glow_cd_m2)), 1.0);
}`;

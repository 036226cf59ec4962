#include "evenlit/report/model_file.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <limits>
#include <type_traits>

#include "evenlit/base/half.hpp"
#include "evenlit/view/light_groups.hpp"
#include "exposure_json.hpp"
#include "json_values.hpp"

namespace evenlit {
namespace {

using Eigen::Vector3d;

constexpr int k_version = 1;
constexpr std::size_t k_alignment = 4;

// Numbers of the glTF 2.0 specification.
constexpr int k_float = 5126;
constexpr int k_unsigned_int = 5125;
constexpr int k_array_buffer = 34962;
constexpr int k_element_array_buffer = 34963;
constexpr std::uint32_t k_magic = 0x46546C67;  // "glTF"
constexpr std::uint32_t k_gltf_version = 2;
constexpr std::uint32_t k_json_chunk = 0x4E4F534A;  // "JSON"
constexpr std::uint32_t k_binary_chunk = 0x004E4942;

/// Little-endian, whatever the machine.
template <class Unsigned>
void append(Unsigned value, std::string& bytes) {
  static_assert(std::is_unsigned_v<Unsigned>);
  for (std::size_t i = 0; i < sizeof value; ++i) bytes += static_cast<char>(value >> (8 * i) & 0xFFU);
}

void append(float value, std::string& bytes) {
  std::uint32_t bits = 0;
  std::memcpy(&bits, &value, sizeof bits);
  append(bits, bytes);
}

/// A binary chunk and the buffer views that it is made of.
struct Binary {
  std::string bytes;
  Json views = Json::array();

  /// @param target what the view is for, 0 for what glTF does not know
  int add(const std::string& view, int target) {
    Json json{{"buffer", 0}, {"byteOffset", bytes.size()}, {"byteLength", view.size()}};
    if (target != 0) json["target"] = target;
    views.push_back(json);
    bytes += view;
    bytes.resize((bytes.size() + k_alignment - 1) / k_alignment * k_alignment);
    return static_cast<int>(views.size()) - 1;
  }
};

/// Buffer views that all meshes share.
enum SharedView { positions, normals, places, corners_of_triangles };

Json vector(const Vector3d& v) { return {number(v.x()), number(v.y()), number(v.z())}; }

Json accessor(SharedView view, std::size_t offset, int component, std::size_t count, const char* type) {
  return {{"bufferView", view}, {"byteOffset", offset}, {"componentType", component}, {"count", count}, {"type", type}};
}

/// The bytes of meshes and the accessors that find each in them.
struct Geometry {
  std::array<std::string, 4> views;  ///< by `SharedView`
  Json accessors = Json::array();

  int add(const Json& accessor) {
    accessors.push_back(accessor);
    return static_cast<int>(accessors.size()) - 1;
  }

  int add_positions(const ModelFace& face) {
    std::string& bytes = views[positions];
    Json json = accessor(positions, bytes.size(), k_float, face.corners_m.size(), "VEC3");
    Eigen::Vector3f low = Eigen::Vector3f::Constant(std::numeric_limits<float>::max());
    Eigen::Vector3f high = -low;
    for (const Vector3d& corner : face.corners_m) {
      const Eigen::Vector3f place = corner.cast<float>();
      for (const float m : place) append(m, bytes);
      low = low.cwiseMin(place);
      high = high.cwiseMax(place);
    }
    json["min"] = {low.x(), low.y(), low.z()};
    json["max"] = {high.x(), high.y(), high.z()};
    return add(json);
  }

  int add_normals(const ModelFace& face) {
    std::string& bytes = views[normals];
    const Json json = accessor(normals, bytes.size(), k_float, face.corners_m.size(), "VEC3");
    for (std::size_t i = 0; i < face.corners_m.size(); ++i) {
      for (const double part : face.normal) append(static_cast<float>(part), bytes);
    }
    return add(json);
  }

  int add_places(const ModelFace& face, const LightTexture& light) {
    std::string& bytes = views[places];
    const Json json = accessor(places, bytes.size(), k_float, face.corners_m.size(), "VEC2");
    for (const Vector3d& corner : face.corners_m) {
      const Eigen::Vector2d place = light.rectangles[face.surface].place_of(corner);
      append(static_cast<float>(place.x() / light.width), bytes);
      append(static_cast<float>(place.y() / light.height), bytes);
    }
    return add(json);
  }

  int add_triangles(const ModelFace& face) {
    std::string& bytes = views[corners_of_triangles];
    const Json json = accessor(corners_of_triangles, bytes.size(), k_unsigned_int, 3 * face.triangles.size(), "SCALAR");
    for (const auto& triangle : face.triangles) {
      for (const int corner : triangle) append(static_cast<std::uint32_t>(corner), bytes);
    }
    return add(json);
  }
};

std::string name_of(const ModelFacts& facts, const ModelFace& face) {
  if (face.kind == ShownFace::Kind::surface) return facts.room.scene().surfaces[face.surface].name;
  const char* what = face.kind == ShownFace::Kind::trim ? "trim of can " : "opening of can ";
  return what + std::to_string(face.luminaire + 1);
}

Json mesh_of(const ModelFacts& facts, const ModelFace& face, int index, Geometry& geometry) {
  constexpr std::array<const char*, 3> k_kinds{"surface", "trim", "opening"};
  Json attributes{{"POSITION", geometry.add_positions(face)}, {"NORMAL", geometry.add_normals(face)}};
  if (face.surface >= 0) attributes["TEXCOORD_0"] = geometry.add_places(face, facts.model.light);
  Json extras{{"kind", k_kinds[static_cast<std::size_t>(face.kind)]}};
  if (face.surface >= 0) extras["surface"] = facts.room.scene().surfaces[face.surface].name;
  if (face.luminaire >= 0) extras["can"] = face.luminaire + 1;
  return {
      {"name", name_of(facts, face)},
      {"primitives", {{{"attributes", attributes}, {"indices", geometry.add_triangles(face)}, {"material", index}}}},
      {"extras", extras}};
}

Json material_of(const ModelFacts& facts, const ModelFace& face) {
  const Vector3d shown = (face.reflectance * face.tint).cwiseMin(1).cwiseMax(0);
  Json json{{"name", name_of(facts, face)},
            {"pbrMetallicRoughness",
             {{"baseColorFactor", {number(shown[0]), number(shown[1]), number(shown[2]), 1}},
              {"metallicFactor", 0},
              {"roughnessFactor", 1}}},
            {"extras", {{"reflectance", number(face.reflectance)}, {"tint_linear_rgb", rgb_json(face.tint)}}}};
  if (face.kind == ShownFace::Kind::opening) {
    json["emissiveFactor"] = {1, 1, 1};
    json["doubleSided"] = face.surface < 0;
  }
  return json;
}

Json nodes_of(const ModelFacts& facts) {
  const double half = std::sqrt(0.5);
  Json children = Json::array();
  Json nodes = Json::array();
  nodes.push_back({{"name", facts.job.room.name}, {"rotation", {-half, 0, 0, half}}});
  for (std::size_t i = 0; i < facts.model.faces.size(); ++i) {
    children.push_back(i + 1);
    nodes.push_back({{"name", name_of(facts, facts.model.faces[i])}, {"mesh", i}});
  }
  nodes[0]["children"] = children;
  return nodes;
}

/// Texels as halves, red, green, blue and 1.
std::string texels_of(const std::array<Eigen::ArrayXf, 3>& planes_lx) {
  constexpr std::size_t k_channels = 4;
  constexpr std::size_t k_bytes = 2;
  const std::uint16_t one = half_bits(1);
  const auto texels = static_cast<std::size_t>(planes_lx[0].size());
  std::string bytes(texels * k_channels * k_bytes, '\0');
  for (std::size_t channel = 0; channel < k_channels; ++channel) {
    for (std::size_t i = 0; i < texels; ++i) {
      const std::uint16_t half = channel < planes_lx.size() ? half_bits(planes_lx[channel][i]) : one;
      char* at = &bytes[(i * k_channels + channel) * k_bytes];
      at[0] = static_cast<char>(half & 0xFFU);
      at[1] = static_cast<char>(half >> 8U);
    }
  }
  return bytes;
}

std::vector<std::vector<int>> cans_by_group(const ModelFacts& facts) {
  std::vector<std::vector<int>> cans(static_cast<std::size_t>(facts.room.groups()));
  for (std::size_t i = 0; i < facts.room.looks().size(); ++i) {
    cans[facts.room.looks()[i].group].push_back(static_cast<int>(i));
  }
  return cans;
}

Json levels_of(const ModelFacts& facts, const std::vector<double>& can_levels) {
  Json levels = Json::array();
  for (const double level : group_levels(facts.job, can_levels)) levels.push_back(number(level));
  return levels;
}

Json tints_of(const ModelFacts& facts, const std::vector<double>& can_levels) {
  Json tints = Json::array();
  for (const Vector3d& tint : group_tints(facts.job, can_levels, k_d65)) tints.push_back(rgb_json(tint));
  return tints;
}

/// By group, of light that grows warmer as it is dimmed: its tints from level 0 to 1.
std::vector<Json> tints_by_level(const ModelFacts& facts) {
  constexpr int k_steps = 10;
  std::vector<Json> by_group(static_cast<std::size_t>(facts.room.groups()), Json::array());
  for (int step = 0; step <= k_steps; ++step) {
    const std::vector<double> levels(facts.job.cans.size(), static_cast<double>(step) / k_steps);
    const Json tints = tints_of(facts, levels);
    for (std::size_t group = 0; group < by_group.size(); ++group) by_group[group].push_back(tints[group]);
  }
  return by_group;
}

Json groups_of(const ModelFacts& facts, Binary& binary) {
  const auto cans = cans_by_group(facts);
  const Json levels = levels_of(facts, facts.can_levels);
  const Json tints = tints_of(facts, facts.can_levels);
  const std::vector<Json> by_level = tints_by_level(facts);
  Json groups = Json::array();
  for (std::size_t i = 0; i < cans.size(); ++i) {
    const Can& first = facts.job.cans[cans[i].front()];
    Json numbered = Json::array();
    for (const int can : cans[i]) numbered.push_back(can + 1);
    Json group{{"circuit", first.circuit ? Json(*first.circuit) : Json(nullptr)},
               {"type", first.type},
               {"cans", numbered},
               {"level", levels[i]},
               {"tint_linear_rgb", tints[i]}};
    if (by_level[i].front() != by_level[i].back()) group["tints_by_tenths_of_level"] = by_level[i];
    group["light_buffer_view"] = binary.add(texels_of(facts.model.light.groups_lx[i]), 0);
    groups.push_back(group);
  }
  return groups;
}

Json openings_of(const ModelFacts& facts) {
  Json openings = Json::array();
  for (const ModelOpening& opening : facts.model.openings) {
    const Luminaire& luminaire = facts.room.scene().luminaires[opening.luminaire];
    Json luminances = Json::array();
    for (const double cd_m2 : opening.cd_m2) luminances.push_back(number(cd_m2));
    openings.push_back({{"can", opening.luminaire + 1},
                        {"group", opening.group},
                        {"mesh", opening.face},
                        {"centre_m", vector(luminaire.position_m)},
                        {"aim", vector(-luminaire.room_from_luminaire.col(2))},
                        {"step_deg", k_opening_step_deg},
                        {"luminance_cd_m2", luminances}});
  }
  return openings;
}

Json moods_of(const ModelFacts& facts) {
  Json moods = Json::array();
  for (const ModelMood& mood : facts.moods) {
    moods.push_back({{"name", mood.name},
                     {"levels", levels_of(facts, mood.can_levels)},
                     {"tints_linear_rgb", tints_of(facts, mood.can_levels)}});
  }
  return moods;
}

Json views_of(const ModelFacts& facts) {
  Json views = Json::array();
  for (const ModelView& view : facts.views) {
    views.push_back({{"name", view.name},
                     {"eye_m", vector(view.camera.eye_m)},
                     {"toward", vector(view.camera.forward)},
                     {"width_deg", number(view.width_deg)}});
  }
  return views;
}

Json extras_of(const ModelFacts& facts, Binary& binary) {
  const LightTexture& light = facts.model.light;
  const Json moods_exposure = facts.moods_exposure ? exposure_json(*facts.moods_exposure) : Json(nullptr);
  return {{"format", "evenlit room model"},
          {"version", k_version},
          {"room", facts.job.room.name},
          {"light_texture",
           {{"width", light.width},
            {"height", light.height},
            {"texel_m", number(light.texel_m)},
            {"texels", "red, green, blue, alpha as halves; illuminance in lx at full level, linear; alpha 1"}}},
          {"groups", groups_of(facts, binary)},
          {"openings", openings_of(facts)},
          {"moods", moods_of(facts)},
          {"exposures", {{"own_levels", exposure_json(facts.exposure)}, {"moods", moods_exposure}}},
          {"views", views_of(facts)}};
}

void append_chunk(std::uint32_t type, const std::string& bytes, std::string& file) {
  append(static_cast<std::uint32_t>(bytes.size()), file);
  append(type, file);
  file += bytes;
}

std::string glb(const Json& json, const std::string& binary) {
  constexpr std::size_t k_headers = 12 + 8 + 8;
  std::string text = json.dump(-1, ' ', false, Json::error_handler_t::replace);
  text.resize((text.size() + k_alignment - 1) / k_alignment * k_alignment, ' ');
  std::string file;
  file.reserve(k_headers + text.size() + binary.size());
  append(k_magic, file);
  append(k_gltf_version, file);
  append(static_cast<std::uint32_t>(k_headers + text.size() + binary.size()), file);
  append_chunk(k_json_chunk, text, file);
  append_chunk(k_binary_chunk, binary, file);
  return file;
}

}  // namespace

std::string room_model_glb(const ModelFacts& facts) {
  Geometry geometry;
  Json meshes = Json::array();
  Json materials = Json::array();
  for (const ModelFace& face : facts.model.faces) {
    meshes.push_back(mesh_of(facts, face, static_cast<int>(meshes.size()), geometry));
    materials.push_back(material_of(facts, face));
  }
  Binary binary;
  for (const SharedView view : {positions, normals, places, corners_of_triangles}) {
    binary.add(geometry.views[view], view == corners_of_triangles ? k_element_array_buffer : k_array_buffer);
  }
  const Json extras = extras_of(facts, binary);
  const Json json{{"asset", {{"version", "2.0"}, {"generator", "evenlit"}}},
                  {"scene", 0},
                  {"scenes", {{{"nodes", {0}}}}},
                  {"nodes", nodes_of(facts)},
                  {"meshes", meshes},
                  {"materials", materials},
                  {"accessors", geometry.accessors},
                  {"bufferViews", binary.views},
                  {"buffers", {{{"byteLength", binary.bytes.size()}}}},
                  {"extras", {{"evenlit", extras}}}};
  return glb(json, binary.bytes);
}

}  // namespace evenlit

#include "evenlit/report/model_file.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <map>
#include <nlohmann/json.hpp>

#include "evenlit/view/light_groups.hpp"
#include "moods/controlled_job.hpp"
#include "room/furnished_room.hpp"

using namespace evenlit;
using nlohmann::json;

namespace {

std::uint32_t word_at(const std::string& bytes, std::size_t at) {
  std::uint32_t word = 0;
  for (std::size_t i = 0; i < 4; ++i)
    word |= static_cast<std::uint32_t>(static_cast<unsigned char>(bytes.at(at + i))) << (8 * i);
  return word;
}

float float_at(const std::string& bytes, std::size_t at) {
  const std::uint32_t word = word_at(bytes, at);
  float value = 0;
  std::memcpy(&value, &word, sizeof value);
  return value;
}

/// Of a half that is not infinite.
float half_at(const std::string& bytes, std::size_t at) {
  const int bits = static_cast<unsigned char>(bytes.at(at)) | static_cast<unsigned char>(bytes.at(at + 1)) << 8;
  const int exponent = bits >> 10 & 0x1F;
  const int fraction = bits & 0x3FF;
  return exponent == 0 ? std::ldexp(static_cast<float>(fraction), -24)
                       : std::ldexp(static_cast<float>(1024 + fraction), exponent - 25);
}

struct Written {
  Job job = [] {
    Job job = controlled_job();
    job.obstructions = furnished_job().obstructions;
    return job;
  }();
  LitRoom room{scene_of(job), luminaire_looks(job)};
  RoomModel model = room_model(room);
  std::string file = room_model_glb({.job = job,
                                     .room = room,
                                     .model = model,
                                     .can_levels = {1, 1, 1, 1, 0.5},
                                     .moods = {{"evening", {0.25, 0.2, 0.2, 0, 0.5}}},
                                     .exposure = {.adaptation_cd_m2 = 20, .scale_m2_per_cd = 0.02},
                                     .moods_exposure = Exposure{.adaptation_cd_m2 = 10, .scale_m2_per_cd = 0.04},
                                     .views = {}});

  [[nodiscard]] std::size_t json_length() const { return word_at(file, 12); }
  [[nodiscard]] json head() const { return json::parse(file.substr(20, json_length())); }
  [[nodiscard]] std::string binary() const { return file.substr(28 + json_length()); }
};

}  // namespace

// glTF 2.0, chapter 4: a header of 12 bytes, then chunks of whole words, JSON first.
TEST_CASE("model file: header and chunks are those of binary glTF", "[report][published]") {
  const Written written;
  const std::string& file = written.file;
  CHECK(file.substr(0, 4) == "glTF");
  CHECK(word_at(file, 4) == 2);
  CHECK(word_at(file, 8) == file.size());
  CHECK(file.substr(16, 4) == "JSON");
  REQUIRE(written.json_length() % 4 == 0);
  const std::size_t binary = 20 + written.json_length();
  CHECK(word_at(file, binary) == file.size() - binary - 8);
  CHECK(word_at(file, binary) % 4 == 0);
  CHECK(file.substr(binary + 4, 4) == std::string("BIN\0", 4));
  CHECK(written.head()["buffers"][0]["byteLength"] == file.size() - binary - 8);
  CHECK(written.head()["asset"]["version"] == "2.0");
}

// glTF 2.0, 3.6: offsets are whole multiples of the component's size, accessors stay within their views, POSITION says
// its bounds.
TEST_CASE("model file: accessors are within their buffer views and say their bounds", "[report][published]") {
  const Written written;
  const json head = written.head();
  const std::string binary = written.binary();
  std::size_t end = 0;
  for (const json& view : head["bufferViews"]) {
    CHECK(view["byteOffset"].get<std::size_t>() % 4 == 0);
    CHECK(view["byteOffset"].get<std::size_t>() >= end);
    CHECK(view["byteLength"].get<std::size_t>() > 0);
    end = view["byteOffset"].get<std::size_t>() + view["byteLength"].get<std::size_t>();
  }
  CHECK(end <= binary.size());
  const std::map<std::string, std::size_t> k_parts{{"SCALAR", 1}, {"VEC2", 2}, {"VEC3", 3}};
  for (const json& accessor : head["accessors"]) {
    const json& view = head["bufferViews"][accessor["bufferView"].get<std::size_t>()];
    const auto offset = accessor["byteOffset"].get<std::size_t>();
    const auto count = accessor["count"].get<std::size_t>();
    const std::size_t parts = k_parts.at(accessor["type"]);
    CHECK(offset % 4 == 0);
    CHECK(count > 0);
    CHECK(offset + 4 * parts * count <= view["byteLength"].get<std::size_t>());
    CHECK((accessor["componentType"] == 5126 || accessor["componentType"] == 5125));
  }
  for (const json& mesh : head["meshes"]) {
    const json& primitive = mesh["primitives"].at(0);
    const json& positions = head["accessors"][primitive["attributes"]["POSITION"].get<std::size_t>()];
    const auto first =
        head["bufferViews"][0]["byteOffset"].get<std::size_t>() + positions["byteOffset"].get<std::size_t>();
    const auto count = positions["count"].get<std::size_t>();
    for (std::size_t axis = 0; axis < 3; ++axis) {
      float low = INFINITY;
      float high = -INFINITY;
      for (std::size_t i = 0; i < count; ++i) {
        const float m = float_at(binary, first + 12 * i + 4 * axis);
        low = std::min(low, m);
        high = std::max(high, m);
      }
      CHECK(positions["min"][axis].get<float>() == low);
      CHECK(positions["max"][axis].get<float>() == high);
    }
    for (const auto& [name, index] : primitive["attributes"].items()) {
      CHECK(head["accessors"][index.get<std::size_t>()]["count"] == count);
    }
    const json& indices = head["accessors"][primitive["indices"].get<std::size_t>()];
    const auto at = head["bufferViews"][3]["byteOffset"].get<std::size_t>() + indices["byteOffset"].get<std::size_t>();
    CHECK(indices["count"].get<std::size_t>() % 3 == 0);
    for (std::size_t i = 0; i < indices["count"].get<std::size_t>(); ++i) REQUIRE(word_at(binary, at + 4 * i) < count);
    CHECK(primitive["material"].get<std::size_t>() < head["materials"].size());
  }
  for (const json& material : head["materials"]) {
    for (const json& part : material["pbrMetallicRoughness"]["baseColorFactor"]) {
      CHECK(part >= 0);
      CHECK(part <= 1);
    }
  }
}

TEST_CASE("model file: places in the texture are within their surface's rectangle", "[report][property]") {
  const Written written;
  const json head = written.head();
  const std::string binary = written.binary();
  const LightTexture& light = written.model.light;
  for (std::size_t i = 0; i < written.model.faces.size(); ++i) {
    const json& attributes = head["meshes"][i]["primitives"][0]["attributes"];
    const ModelFace& face = written.model.faces[i];
    REQUIRE(attributes.contains("TEXCOORD_0") == (face.surface >= 0));
    if (face.surface < 0) continue;
    const TextureRectangle& rectangle = light.rectangles[face.surface];
    const json& places = head["accessors"][attributes["TEXCOORD_0"].get<std::size_t>()];
    const auto first =
        head["bufferViews"][2]["byteOffset"].get<std::size_t>() + places["byteOffset"].get<std::size_t>();
    for (std::size_t corner = 0; corner < places["count"].get<std::size_t>(); ++corner) {
      // Single precision: a ten-thousandth of a texel.
      const double column = light.width * static_cast<double>(float_at(binary, first + 8 * corner));
      const double row = light.height * static_cast<double>(float_at(binary, first + 8 * corner + 4));
      CHECK(column >= rectangle.column - 1e-3);
      CHECK(column <= rectangle.column + rectangle.columns + 1e-3);
      CHECK(row >= rectangle.row - 1e-3);
      CHECK(row <= rectangle.row + rectangle.rows + 1e-3);
    }
  }
}

TEST_CASE("model file: each group has its texture, cans, level and tint", "[report]") {
  const Written written;
  const json head = written.head();
  const json& extras = head["extras"]["evenlit"];
  const std::string binary = written.binary();
  CHECK(extras["format"] == "evenlit room model");
  const LightTexture& light = written.model.light;
  CHECK(extras["light_texture"]["width"] == light.width);
  CHECK(extras["light_texture"]["height"] == light.height);
  REQUIRE(extras["groups"].size() == 4);
  CHECK(extras["groups"][1]["circuit"] == "ceiling");
  CHECK(extras["groups"][1]["type"] == "shallow");
  CHECK(extras["groups"][1]["cans"] == json({2, 3}));
  CHECK(extras["groups"][3]["circuit"].is_null());
  CHECK(extras["groups"][3]["level"] == 0.5);
  CHECK(extras["moods"][0]["levels"] == json({0.25, 0.2, 0.0, 0.5}));
  CHECK(extras["exposures"]["own_levels"]["scale_m2_per_cd"] == 0.02);
  CHECK(extras["exposures"]["moods"]["scale_m2_per_cd"] == 0.04);
  CHECK(extras["openings"].size() == 5);
  const Eigen::Index texels = static_cast<Eigen::Index>(light.width) * light.height;
  for (std::size_t group = 0; group < 4; ++group) {
    const json& view = head["bufferViews"][extras["groups"][group]["light_buffer_view"].get<std::size_t>()];
    REQUIRE(view["byteLength"] == 8 * texels);
    const auto first = view["byteOffset"].get<std::size_t>();
    for (Eigen::Index texel = 0; texel < texels; texel += 101) {
      const std::size_t at = first + 8 * static_cast<std::size_t>(texel);
      for (std::size_t colour = 0; colour < 3; ++colour) {
        const float lx = light.groups_lx[group][colour][texel];
        // Half of the last of eleven bits, and of the smallest step.
        REQUIRE(half_at(binary, at + 2 * colour) == Approx(lx).epsilon(0.00049).margin(3e-8));
      }
      REQUIRE(half_at(binary, at + 6) == 1);
    }
  }
}

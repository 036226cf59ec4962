#include <catch2/catch.hpp>
#include <random>

#include "evenlit/job/read_job.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

constexpr std::size_t k_mebibyte = std::size_t{1} << 20;

std::string repeated(std::string_view part, std::size_t most_bytes) {
  std::string text;
  while (text.size() + part.size() <= most_bytes) text += part;
  return text;
}

/// A job that uses every table.
const std::string k_whole_job =
    std::string(k_sample_job) + std::string(k_sample_framing) + std::string(k_sample_readings);

/// Reads and renders; a failure must say why, a success needs a room.
bool is_answered(std::string_view bytes) {
  const auto job = read_job(bytes, "hostile.toml");
  return job ? job->room.corners_m.size() >= 3 : !job.error().empty() && !text_of(job.error(), bytes).empty();
}

}  // namespace

TEST_CASE("hostile job: the sample cut short at every byte is answered", "[job][property]") {
  for (std::size_t size = 0; size <= k_whole_job.size(); ++size) {
    CAPTURE(size);
    CHECK(is_answered(std::string_view(k_whole_job).substr(0, size)));
  }
}

TEST_CASE("hostile job: the sample with flipped bytes is answered", "[job][property]") {
  std::mt19937_64 random(20240504);
  for (int i = 0; i < 5000; ++i) {
    std::string text(k_whole_job);
    for (auto flips = 1 + random() % 3; flips > 0; --flips) {
      text[random() % text.size()] = static_cast<char>(random() % (i % 2 == 0 ? 128 : 256));
    }
    INFO(text);
    CHECK(is_answered(text));
  }
}

TEST_CASE("hostile job: slopes, wall areas and mountings with flipped bytes are answered", "[job][property]") {
  const auto sound =
      sample_with("ceiling = \"8ft\"",
                  "ceiling = \"9ft\"\nslopes = [{ wall = \"west\", height = \"6ft\", pitch = \"8/12\" }, "
                  "{ wall = \"east\", height = \"6ft\", pitch = 30 }]") +
      "[[wall_areas]]\nname = \"door\"\nwall = \"north\"\nfrom = { east = \"3ft\" }\n"
      "width = \"36in\"\ntop = \"80in\"\nreflectance = 0.5\n"
      "[[cans]]\ntype = \"spot\"\nfrom = { west = \"3ft\", north = \"1ft\" }\ndrop = \"1ft\"\naim = \"square\"\n"
      "[[cans]]\ntype = \"spot\"\nfrom = { west = \"3ft\", north = \"2ft\" }\nheight = \"1ft\"\n";
  std::mt19937_64 random(20240507);
  CHECK(read_job(sound, "hostile.toml"));
  for (int i = 0; i < 5000; ++i) {
    std::string text = sound;
    for (auto flips = 1 + random() % 3; flips > 0; --flips) {
      text[random() % text.size()] = static_cast<char>(random() % (i % 2 == 0 ? 128 : 256));
    }
    INFO(text);
    CHECK(is_answered(text));
  }
}

TEST_CASE("hostile job: circuits, dimmers and moods cut short or with flipped bytes are answered", "[job][property]") {
  const auto sound = controls_job();
  CHECK(read_job(sound, "hostile.toml"));
  for (std::size_t size = k_sample_job.size(); size <= sound.size(); ++size) {
    CAPTURE(size);
    CHECK(is_answered(std::string_view(sound).substr(0, size)));
  }
  std::mt19937_64 random(20240508);
  for (int i = 0; i < 5000; ++i) {
    std::string text = sound;
    for (auto flips = 1 + random() % 3; flips > 0; --flips) {
      text[random() % text.size()] = static_cast<char>(random() % (i % 2 == 0 ? 128 : 256));
    }
    INFO(text);
    CHECK(is_answered(text));
  }
}

TEST_CASE("hostile job: the sample with pieces moved about is answered", "[job][property]") {
  std::mt19937_64 random(20240505);
  for (int i = 0; i < 2000; ++i) {
    std::string text(k_whole_job);
    const auto piece = text.substr(random() % text.size(), random() % 40);
    text.insert(random() % text.size(), piece);
    INFO(text);
    CHECK(is_answered(text));
  }
}

TEST_CASE("hostile job: deep nesting neither hangs nor overflows the stack", "[job][property]") {
  const auto part = GENERATE(as<std::string>{}, "[", "{", "a=[", "a=[[", "a={a=", "a={a=[", "a.", "[a.", "\"a\".", "[[",
                             "x=[{a=[\n", "a.a.a.a.a.a.a.a={a.a.a.a.a.a.a.a=[\n");
  CAPTURE(part);
  CHECK(is_answered(repeated(part, k_mebibyte)));
  CHECK(is_answered("a = " + repeated(part, k_mebibyte - 4)));
}

TEST_CASE("hostile job: tables as deep as the limits allow do not overflow the stack", "[job][property]") {
  const auto keys = repeated("a.", 198) + "a";  // 99 dots
  std::string text = "[" + keys + "]\n";
  for (int i = 0; i < 4; ++i) text += keys + " = [\n{ ";
  for (int i = 0; i < 4; ++i) text += "}\n]";
  const auto job = read_job(text, "hostile.toml");
  REQUIRE_FALSE(job);
  CHECK(job.error().back().what == "the job knows no key \"a\"");  // it was parsed, down to the deepest table
}

TEST_CASE("hostile job: very many values are answered", "[job][property]") {
  CHECK(is_answered("cans = [" + repeated("0,", k_mebibyte - 9) + "]"));
  CHECK(is_answered("[room]\ncorners = [" + repeated("[0,0],", k_mebibyte - 19) + "]"));
  CHECK(is_answered(repeated("[[cans]]\n", k_mebibyte)));
  CHECK(is_answered(repeated("[[obstructions]]\n", k_mebibyte)));
  CHECK(is_answered(repeated("[[task_areas]]\n", k_mebibyte)));
  CHECK(is_answered(repeated("[[points]]\n", k_mebibyte)));
  CHECK(is_answered("[[task_areas]]\ncorners = [" + repeated("[0,0,0],", k_mebibyte - 29) + "]"));
  CHECK(is_answered("[dimmers.a]\ncurve = [" + repeated("[0,0],", k_mebibyte - 29) + "]"));
  CHECK(is_answered(repeated("[[moods.a.wish]]\n", k_mebibyte)));
  CHECK(is_answered("[moods.a]\nequal = [" + repeated("[],", k_mebibyte - 29) + "]"));
  CHECK(is_answered("[moods.a]\noff = [" + repeated("\"a\",", k_mebibyte - 29) + "]"));
  CHECK(is_answered("room = \"" + repeated("x", k_mebibyte - 9) + "\""));
  CHECK(is_answered("[room]\nwidth = \"" + repeated("1,", k_mebibyte - 17) + "\""));
  CHECK(is_answered("[room]\nwidth = \"" + repeated("1", k_mebibyte - 17) + "\""));
  std::string keys;
  for (int i = 0; keys.size() < k_mebibyte - 20; ++i) keys += "key" + std::to_string(i) + "=0\n";
  CHECK(is_answered(keys));
}

TEST_CASE("hostile job: random bytes are answered", "[job][property]") {
  std::mt19937_64 random(20240506);
  for (int i = 0; i < 2000; ++i) {
    std::string bytes;
    for (auto size = random() % 200; size > 0; --size) bytes += static_cast<char>(random());
    CHECK(is_answered(bytes));
  }
}

#include "toml_editor.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>

#include "evenlit/job/write_job.hpp"
#include "random_jobs.hpp"
#include "sample_job.hpp"

using namespace evenlit;

namespace {

/// Every way in which TOML lets one write tables and lists.
constexpr std::string_view k_every_form = R"(# A file's first words.

title = 'C:\temp # no comment' # a comment with a "quote
"quoted key" . inner = 1
"quoted key".'other.key' = """
two lines ""with quotes"" and \" one more""""
empty = {}
none = []
flat = [ 1, 2 ,3 ]
trailing = [1, 2, 3,]
tables = [ { a = 1, b.c = 2, b.d = "}" }, { a = [ "]", { x = '''#''' } ] } ]
lines = [
  "one", # the first, with a comma
  # between
  "two",
  "three" # the last
]

pairs = [[0, "1ft"], [
  2, # comment
  3]]

# On the table.
[table] # beside its header
key = true # beside
 indented = 1e3
dotted.a = 1
dotted.b.c = 2
# under the table

# apart

[table.sub]
x = +1

# On the first.
[[list]]
name = "first"
[list.of]
y = 1
[[list.deep]]
z = 1
[[list.deep]]
z = 2

# On the second,
# in two lines.
[[list]]
name = "second"
[other."dot.ted"]
v = 1_000
[list.of]
y = 2

[[list]]
)";

const std::filesystem::path k_scenes = std::filesystem::path(EVENLIT_SOURCE_DIR) / "scenes";

std::vector<std::string> scenes() {
  std::vector<std::string> texts;
  for (const auto& entry : std::filesystem::directory_iterator(k_scenes)) {
    if (entry.path().extension() != ".toml") continue;
    std::ifstream file(entry.path(), std::ios::binary);
    texts.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  REQUIRE(texts.size() >= 8);
  return texts;
}

std::string with_returns(const std::string& text) {
  std::string changed;
  for (const char c : text) changed += c == '\n' ? "\r\n" : std::string(1, c);
  return changed;
}

/// Texts of all kinds, among them jobs of awkward names.
std::vector<std::string> texts() {
  std::vector<std::string> all = scenes();
  all.emplace_back(k_every_form);
  all.push_back(with_returns(std::string(k_every_form)));
  all.push_back("\xef\xbb\xbf" + std::string(k_every_form));
  all.emplace_back(k_every_form.substr(0, k_every_form.size() - 1));
  all.push_back(write_job(RandomJobs(7).next()));
  return all;
}

TomlEditor editor_of(const std::string& text) {
  auto editor = TomlEditor::of(text, "text");
  INFO((editor ? std::string{} : text_of(editor.error(), text)));
  REQUIRE(editor);
  return std::move(*editor);
}

Json json_of(const TomlValue& value) {
  if (const auto* table = std::get_if<TomlTable>(&value.content)) {
    Json json = Json::object();
    for (const auto& entry : table->entries) json[entry.key] = json_of(entry.value);
    return json;
  }
  if (const auto* array = std::get_if<TomlArray>(&value.content)) {
    Json json = Json::array();
    for (const auto& element : *array) json.push_back(json_of(element));
    return json;
  }
  if (const auto* text = std::get_if<std::string>(&value.content)) return *text;
  if (const auto* is = std::get_if<bool>(&value.content)) return *is;
  return std::get<double>(value.content);
}

using Visit = std::function<void(const TomlPath&, const TomlValue&)>;

void visit_all(const TomlValue& value, const TomlPath& path, const Visit& visit) {
  if (!path.empty()) visit(path, value);
  if (const auto* table = std::get_if<TomlTable>(&value.content)) {
    for (const auto& entry : table->entries) visit_all(entry.value, extended(path, entry.key), visit);
  } else if (const auto* array = std::get_if<TomlArray>(&value.content)) {
    for (std::size_t i = 0; i < array->size(); ++i) visit_all((*array)[i], extended(path, i), visit);
  }
}

/// Without tables and lists that hold nothing, which a text may have or not, and without an order of keys.
nlohmann::json pruned(const nlohmann::json& json) {
  if (!json.is_structured()) return json;
  nlohmann::json kept = json.is_object() ? nlohmann::json::object() : nlohmann::json::array();
  for (const auto& [key, value] : json.items()) {
    const auto part = pruned(value);
    if (json.is_array()) {
      kept.push_back(part);
    } else if (!part.is_structured() || !part.empty()) {
      kept[key] = part;
    }
  }
  return kept;
}

nlohmann::json meaning(const Json& json) { return pruned(nlohmann::json::parse(json.dump())); }
nlohmann::json meaning(const TomlEditor& editor) { return meaning(json_of(editor.document())); }

Json& at(Json& json, const TomlPath& path) {
  Json* part = &json;
  for (const TomlStep& step : path) {
    part = std::visit([&](const auto& key) { return &(*part)[key]; }, step);
  }
  return *part;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines(1);
  for (const char c : text) {
    lines.back() += c;
    if (c == '\n') lines.emplace_back();
  }
  if (lines.back().empty()) lines.pop_back();  // a text may end in a line feed
  return lines;
}

bool is_subsequence(const std::vector<std::string>& part, const std::vector<std::string>& whole) {
  auto next = whole.begin();
  return std::ranges::all_of(part, [&](const std::string& line) {
    next = std::find(next, whole.end(), line);
    return next != whole.end() && (++next, true);
  });
}

}  // namespace

TEST_CASE("layout: every value stands where the parser says and means the same alone", "[job][property]") {
  for (const std::string& text : texts()) {
    const TomlEditor editor = editor_of(text);
    const auto parts = toml_layout(text);
    int values = 0;
    visit_all(editor.document(), {}, [&](const TomlPath& path, const TomlValue& value) {
      CAPTURE(text_of(path));
      const auto part = std::ranges::find_if(parts, [&](const TomlPart& candidate) {
        return candidate.kind != TomlPart::Kind::section && candidate.path == path;
      });
      if (part == parts.end()) {  // made by headers or dotted keys alone
        CHECK(std::ranges::any_of(parts, [&](const TomlPart& other) { return begins_with(other.path, path); }));
        return;
      }
      ++values;
      const std::string written = text.substr(part->value.begin, part->value.end - part->value.begin);
      const auto alone = toml_document("x = " + written, "alone");
      REQUIRE(alone);
      CHECK(json_of(*value_at(*alone, {"x"})) == json_of(value));
      const std::string before = text.substr(0, part->value.begin);
      CHECK(value.place.line == 1 + std::ranges::count(before, '\n'));
    });
    CHECK(values >= 20);
  }
}

TEST_CASE("editor: setting what is there already changes no byte", "[job][property]") {
  for (const std::string& text : texts()) {
    TomlEditor editor = editor_of(text);
    const TomlValue document = editor.document();
    visit_all(document, {}, [&](const TomlPath& path, const TomlValue& value) {
      CAPTURE(text_of(path));
      REQUIRE(editor.set(path, json_of(value)));
      REQUIRE(editor.text() == text);
    });
  }
}

TEST_CASE("editor: a value is replaced where it stands, and comes back, whatever its characters", "[job][property]") {
  std::string hostile = "\"'\\ \n\r\n\t\b\x01\x1f\x7f ''' \"\"\" # = [x] {y} ½ \U0001f4a1";
  hostile.push_back('\0');
  for (const std::string& text : texts()) {
    const TomlEditor original = editor_of(text);
    const auto parts = toml_layout(text);
    for (const TomlPart& part : parts) {
      if (part.kind == TomlPart::Kind::section || part.is_in_braces) continue;
      CAPTURE(text_of(part.path));
      TomlEditor editor = original;
      REQUIRE(editor.set(part.path, hostile));
      CHECK(json_of(*value_at(editor.document(), part.path)) == hostile);
      CHECK(editor.text() == text.substr(0, part.value.begin) + toml_value_text(hostile) + text.substr(part.value.end));
      REQUIRE(editor.set(part.path, json_of(*value_at(original.document(), part.path))));
      CHECK(meaning(editor) == meaning(original));
    }
  }
}

TEST_CASE("editor: whatever is taken away is gone alone, and can be set again", "[job][property]") {
  for (const std::string& text : texts()) {
    const TomlEditor original = editor_of(text);
    const auto lines = lines_of(text);
    visit_all(original.document(), {}, [&](const TomlPath& path, const TomlValue& value) {
      CAPTURE(text_of(path));
      TomlEditor editor = original;
      const Edit removed = editor.remove(path);
      INFO((removed ? "" : removed.error().what));
      REQUIRE(removed);
      Json expected = json_of(original.document());
      const TomlPath holder(path.begin(), path.end() - 1);
      std::visit([&](const auto& key) { at(expected, holder).erase(key); }, path.back());
      INFO(editor.text());
      REQUIRE(meaning(editor) == meaning(expected));
      const auto parts = toml_layout(text);
      const auto first =
          std::ranges::find_if(parts, [&](const TomlPart& part) { return begins_with(part.path, path); });
      const bool is_of_lines = first->kind == TomlPart::Kind::section || first->kind == TomlPart::Kind::line;
      if (is_of_lines) CHECK(is_subsequence(lines_of(editor.text()), lines));
      const auto* key = std::get_if<std::string>(&path.back());
      const auto* array = std::get_if<TomlArray>(&value_at(original.document(), holder)->content);
      if (key != nullptr) {
        REQUIRE(editor.set(path, json_of(value)));
        CHECK(meaning(editor) == meaning(original));
      } else if (std::get<std::size_t>(path.back()) + 1 == array->size()) {
        const Edit added = editor.add(holder, {json_of(value)});
        INFO((added ? "" : added.error().what));
        REQUIRE(added);
        CHECK(meaning(editor) == meaning(original));
      }
    });
  }
}

TEST_CASE("editor: keys are added to every table, elements to every list, and go again without a trace",
          "[job][property]") {
  for (const std::string& text : texts()) {
    const TomlEditor original = editor_of(text);
    visit_all(original.document(), {}, [&](const TomlPath& path, const TomlValue& value) {
      CAPTURE(text_of(path));
      TomlEditor editor = original;
      Json expected = json_of(original.document());
      const bool is_table = std::holds_alternative<TomlTable>(value.content);
      const bool is_list = std::holds_alternative<TomlArray>(value.content);
      if (!is_table && !is_list) {
        CHECK_FALSE(editor.set(extended(path, "part"), 1));
        CHECK_FALSE(editor.add(path, {1}));
        return;
      }
      const Json table{{"a key", "a value"}, {"inner", {{"x", {1, true}}}}};
      const TomlPath place = is_table ? extended(path, "new.key") : extended(path, at(expected, path).size());
      if (is_table) {
        at(expected, path)["new.key"] = table;
        REQUIRE(editor.set(place, table));
      } else {
        at(expected, path).push_back(table);
        REQUIRE(editor.add(path, {table}));
      }
      INFO(editor.text());
      REQUIRE(meaning(editor) == meaning(expected));
      REQUIRE(editor.remove(place));
      CHECK(meaning(editor) == meaning(original));
    });
  }
}

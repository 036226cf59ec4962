#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "evenlit/base/length.hpp"
#include "toml_document.hpp"
#include "toml_json.hpp"
#include "toml_layout.hpp"

namespace evenlit {

/// Done, or why not.
using Edit = tl::expected<std::monostate, TextProblem>;

/// What a path leads to; null where it leads nowhere.
const TomlValue* value_at(const TomlValue& document, const TomlPath& path);

/// What to say of a path that leads nowhere: from where on, and what there is instead.
TextProblem unknown_path(const TomlValue& document, const TomlPath& path);

/// A TOML text of which parts are changed; all other bytes stay.
///
/// The text is always TOML that `toml_document` reads; of an edit that fails a part may be done.
class TomlEditor {
 public:
  /// @errors of `toml_document`
  static Result<TomlEditor> of(std::string text, std::string_view name);

  [[nodiscard]] const std::string& text() const { return text_; }
  [[nodiscard]] const TomlValue& document() const { return document_; }

  /// Gives a value to what the path leads to; adds it, and tables on the way, where there is none. What equals the
  /// value already stays as it is written, a table keeps the values that do.
  Edit set(const TomlPath& path, const Json& value);

  /// Gives values to keys and elements that have one in one go.
  Edit rewrite(const std::vector<std::pair<TomlPath, Json>>& values);

  /// Takes away a key, a table with those in it, or an element. The comment lines that stand right on a table go too.
  Edit remove(const TomlPath& path);

  /// Appends elements to a list, which there need not be yet.
  Edit add(const TomlPath& path, const std::vector<Json>& values);

  /// Puts a list's elements in the place of those that it has.
  Edit replace_elements(const TomlPath& path, const std::vector<Json>& values);

 private:
  using Kind = TomlPart::Kind;

  /// Bytes to be put in the place of a span.
  struct Patch {
    TomlSpan span;
    std::string bytes;
  };

  TomlEditor(std::string text, std::string name, TomlValue document);

  Edit commit(std::vector<Patch> patches);

  [[nodiscard]] const TomlPart* find(const TomlPath& path, Kind kind) const;
  [[nodiscard]] const TomlPart* written_value(const TomlPath& path) const;
  [[nodiscard]] const TomlPart* first_below(const TomlPath& path) const;
  [[nodiscard]] std::vector<const TomlPart*> sections_below(const TomlPath& path) const;
  [[nodiscard]] std::vector<const TomlPart*> held_by(const TomlPart& holder) const;
  [[nodiscard]] std::size_t index_of(const TomlPart& part) const {
    return static_cast<std::size_t>(&part - parts_.data());
  }

  [[nodiscard]] std::size_t line_begin(std::size_t at) const;
  [[nodiscard]] std::size_t line_end(std::size_t at) const;
  [[nodiscard]] std::string_view line_at(std::size_t begin) const;
  [[nodiscard]] bool is_alone_on_lines(const TomlPart& element) const;
  [[nodiscard]] std::size_t section_begin(const TomlPart& section) const;
  [[nodiscard]] std::size_t own_end(const TomlPart& section) const;
  [[nodiscard]] std::size_t section_end(const TomlPart& section) const;
  [[nodiscard]] TomlSpan section_to_remove(const TomlPart& section) const;

  [[nodiscard]] std::string section_text(const TomlPath& path, bool is_element, const Json& content) const;
  [[nodiscard]] Patch inserted_line(std::size_t at, const std::string& line) const;
  [[nodiscard]] Patch inserted_block(std::size_t at, const std::string& block) const;
  [[nodiscard]] std::size_t place_below(const TomlPath& path) const;
  [[nodiscard]] std::string dotted_key(const TomlPart& holder, const TomlPath& path) const;

  Edit set_table(const TomlPath& path, const TomlTable& now, const Json& value);
  Edit set_elements(const TomlPath& path, std::size_t count, const Json& value);
  Edit insert_new(const TomlPath& path, Json value);
  Edit insert(const TomlPath& table, const std::string& key, const Json& value);
  Edit insert_in_braces(const TomlPart& part, const std::string& pair);
  Edit insert_beside(const TomlPart& dotted, const TomlPath& path, const Json& value);
  Edit append_in_brackets(const TomlPart& part, const std::vector<Json>& values);
  Edit remove_sections(const TomlPath& path, std::size_t first, std::size_t count);
  Edit remove_sections(const std::vector<const TomlPart*>& sections);
  Edit remove_pair(const TomlPart& pair);
  Edit remove_element(const TomlPart& element);

  std::string text_;
  std::string name_;
  std::string line_feed_;
  TomlValue document_;
  std::vector<TomlPart> parts_;
};

}  // namespace evenlit

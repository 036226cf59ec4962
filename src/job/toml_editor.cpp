#include "toml_editor.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "evenlit/base/names.hpp"
#include "toml_text.hpp"

namespace evenlit {
namespace {

constexpr std::string_view k_blanks = " \t\r\n";

bool is_blank(std::string_view line) { return line.find_first_not_of(k_blanks) == std::string_view::npos; }

bool is_comment(std::string_view line) {
  const auto first = line.find_first_not_of(k_blanks);
  return first != std::string_view::npos && line[first] == '#';
}

tl::unexpected<TextProblem> refusal(std::string what, std::string hint) {
  return tl::unexpected(TextProblem{std::move(what), std::move(hint)});
}

bool is_list_of_tables(const Json& value) {
  return value.is_array() && !value.empty() &&
         std::ranges::all_of(value, [](const Json& part) { return part.is_object(); });
}

/// How much of a path leads to something.
TomlPath known_part(const TomlValue& document, TomlPath path) {
  while (value_at(document, path) == nullptr) path.pop_back();
  return path;
}

/// Whether one of the steps from `first` on is an index.
bool has_number(const TomlPath& path, std::size_t first) {
  return std::any_of(path.begin() + static_cast<std::ptrdiff_t>(first), path.end(),
                     [](const TomlStep& step) { return std::holds_alternative<std::size_t>(step); });
}

}  // namespace

const TomlValue* value_at(const TomlValue& document, const TomlPath& path) {
  const TomlValue* value = &document;
  for (const TomlStep& step : path) {
    if (const auto* key = std::get_if<std::string>(&step)) {
      const auto* table = std::get_if<TomlTable>(&value->content);
      if (table == nullptr) return nullptr;
      const auto entry = std::ranges::find(table->entries, *key, &TomlEntry::key);
      if (entry == table->entries.end()) return nullptr;
      value = &entry->value;
    } else {
      const auto* array = std::get_if<TomlArray>(&value->content);
      const auto index = std::get<std::size_t>(step);
      if (array == nullptr || index >= array->size()) return nullptr;
      value = &(*array)[index];
    }
  }
  return value;
}

TextProblem unknown_path(const TomlValue& document, const TomlPath& path) {
  const TomlPath known = known_part(document, path);
  const TomlValue& last = *value_at(document, known);
  const TomlStep& next = path[known.size()];
  const std::string what = fmt::format("there is no {}", text_of(extended(known, next)));
  if (const auto* array = std::get_if<TomlArray>(&last.content)) {
    const std::string list = text_of(known);
    if (array->empty()) return {what, list + " is empty"};
    return {what, array->size() == 1 ? fmt::format("{} has one element, number 0", list)
                                     : fmt::format("{} has {} elements, from number 0 on", list, array->size())};
  }
  const auto* table = std::get_if<TomlTable>(&last.content);
  if (table == nullptr) return {what, text_of(known) + " is a value and has no parts"};
  const auto* key = std::get_if<std::string>(&next);
  if (key == nullptr) return {what, "write the name of a key in quotes; a table has no numbered elements"};
  std::vector<std::string_view> keys;
  for (const TomlEntry& entry : table->entries) keys.push_back(entry.key);
  const std::string nearest = nearest_name(*key, keys);
  if (!nearest.empty()) return {what, fmt::format("did you mean {}?", evenlit::quoted(nearest))};
  return {what, keys.empty() ? "its table is empty" : fmt::format("its table has {}", fmt::join(keys, ", "))};
}

Result<TomlEditor> TomlEditor::of(std::string text, std::string_view name) {
  auto document = toml_document(text, name);
  if (!document) return tl::unexpected(std::move(document.error()));
  return TomlEditor(std::move(text), std::string(name), std::move(*document));
}

TomlEditor::TomlEditor(std::string text, std::string name, TomlValue document)
    : text_(std::move(text)), name_(std::move(name)), document_(std::move(document)), parts_(toml_layout(text_)) {
  const std::size_t end = text_.find('\n');
  const bool has_return = end != std::string::npos && end > 0 && text_[end - 1] == '\r';
  line_feed_ = has_return ? "\r\n" : "\n";
}

/// Patches may touch; where they overlap, as what is taken away may, an earlier one keeps to what is before a later.
Edit TomlEditor::commit(std::vector<Patch> patches) {
  std::ranges::stable_sort(patches, {}, [](const Patch& patch) { return patch.span.begin; });
  std::string text = text_;
  std::size_t limit = text.size();
  for (auto patch = patches.rbegin(); patch != patches.rend(); ++patch) {
    const std::size_t end = std::min(patch->span.end, limit);
    text.replace(patch->span.begin, end - patch->span.begin, patch->bytes);
    limit = patch->span.begin;
  }
  auto document = toml_document(text, name_);
  if (!document) {
    const Problem& problem = document.error().front();
    return refusal("that makes no job file: " + problem.what, problem.hint);
  }
  text_ = std::move(text);
  document_ = std::move(*document);
  parts_ = toml_layout(text_);
  return {};
}

// Where things stand.

const TomlPart* TomlEditor::find(const TomlPath& path, Kind kind) const {
  const auto found =
      std::ranges::find_if(parts_, [&](const TomlPart& part) { return part.kind == kind && part.path == path; });
  return found == parts_.end() ? nullptr : &*found;
}

const TomlPart* TomlEditor::written_value(const TomlPath& path) const {
  for (const Kind kind : {Kind::line, Kind::pair, Kind::element}) {
    if (const TomlPart* part = find(path, kind)) return part;
  }
  return nullptr;
}

const TomlPart* TomlEditor::first_below(const TomlPath& path) const {
  const auto found = std::ranges::find_if(parts_, [&](const TomlPart& part) { return begins_with(part.path, path); });
  return found == parts_.end() ? nullptr : &*found;
}

std::vector<const TomlPart*> TomlEditor::sections_below(const TomlPath& path) const {
  std::vector<const TomlPart*> sections;
  for (const TomlPart& part : parts_) {
    if (part.kind == Kind::section && begins_with(part.path, path)) sections.push_back(&part);
  }
  return sections;
}

/// The lines of a section, the pairs or elements of a value.
std::vector<const TomlPart*> TomlEditor::held_by(const TomlPart& holder) const {
  std::vector<const TomlPart*> held;
  for (const TomlPart& part : parts_) {
    if (part.kind != Kind::section && part.holder == index_of(holder)) held.push_back(&part);
  }
  return held;
}

std::size_t TomlEditor::line_begin(std::size_t at) const {
  const std::size_t top = parts_.front().written.end;  // behind a byte order mark
  if (at <= top) return top;
  const std::size_t feed = text_.rfind('\n', at - 1);
  return feed == std::string::npos ? top : feed + 1;
}

/// Where the next line begins.
std::size_t TomlEditor::line_end(std::size_t at) const {
  const std::size_t feed = text_.find('\n', at);
  return feed == std::string::npos ? text_.size() : feed + 1;
}

std::string_view TomlEditor::line_at(std::size_t begin) const {
  return std::string_view(text_).substr(begin, line_end(begin) - begin);
}

/// Nothing but its comma and a comment beside it.
bool TomlEditor::is_alone_on_lines(const TomlPart& element) const {
  const auto& [begin, end] = element.written;
  const std::size_t behind = element.comma ? *element.comma + 1 : end;
  const std::string_view text = text_;
  const std::string_view line = text.substr(line_begin(begin), begin - line_begin(begin));
  const std::string_view rest = text.substr(behind, line_end(behind) - behind);
  return is_blank(line) && line_end(behind) == line_end(end) && (is_blank(rest) || is_comment(rest));
}

/// With the comment lines that stand right on its header.
std::size_t TomlEditor::section_begin(const TomlPart& section) const {
  std::size_t least = parts_.front().written.end;
  for (const TomlPart& part : parts_) {
    if (part.kind != Kind::section && part.written.end <= section.written.begin) {
      least = std::max(least, line_end(part.written.end));
    }
  }
  std::size_t begin = line_begin(section.written.begin);
  while (begin > least && is_comment(line_at(line_begin(begin - 1)))) begin = line_begin(begin - 1);
  return begin;
}

/// Behind the last line of a section's own, or its header.
std::size_t TomlEditor::own_end(const TomlPart& section) const {
  const auto lines = held_by(section);
  return line_end(lines.empty() ? section.written.end : lines.back()->written.end);
}

/// Behind the comment lines that stand right under a section and on no header.
std::size_t TomlEditor::section_end(const TomlPart& section) const {
  const std::size_t end = own_end(section);
  std::size_t behind = end;
  while (behind < text_.size() && is_comment(line_at(behind))) behind = line_end(behind);
  const bool is_on_header = behind < text_.size() && !is_blank(line_at(behind));
  return is_on_header ? end : behind;
}

/// With the blank lines that would be doubled.
TomlSpan TomlEditor::section_to_remove(const TomlPart& section) const {
  const std::size_t top = parts_.front().written.end;
  TomlSpan span{section_begin(section), section_end(section)};
  const bool is_behind_blank = span.begin == top || is_blank(line_at(line_begin(span.begin - 1)));
  while (is_behind_blank && span.end < text_.size() && is_blank(line_at(span.end))) span.end = line_end(span.end);
  while (span.end == text_.size() && span.begin > top && is_blank(line_at(line_begin(span.begin - 1)))) {
    span.begin = line_begin(span.begin - 1);
  }
  return span;
}

/// Where a table begins that belongs to another one: behind all of that.
std::size_t TomlEditor::place_below(const TomlPath& path) const {
  const auto sections = sections_below(path);
  return path.empty() || sections.empty() ? text_.size() : section_end(*sections.back());
}

// What is written.

/// A header and the lines under it.
std::string TomlEditor::section_text(const TomlPath& path, bool is_element, const Json& content) const {
  std::string keys;
  for (const TomlStep& step : path) {
    if (const auto* key = std::get_if<std::string>(&step)) keys += (keys.empty() ? "" : ".") + key_text(*key);
  }
  std::string text = (is_element ? "[[" + keys + "]]" : "[" + keys + "]") + line_feed_;
  for (const auto& [key, value] : content.items()) {
    text += key_text(key) + " = " + toml_value_text(value) + line_feed_;
  }
  return text;
}

TomlEditor::Patch TomlEditor::inserted_line(std::size_t at, const std::string& line) const {
  const bool is_cut = at > parts_.front().written.end && text_[at - 1] != '\n';
  return {{at, at}, (is_cut ? line_feed_ : "") + line + line_feed_};
}

/// Between blank lines.
TomlEditor::Patch TomlEditor::inserted_block(std::size_t at, const std::string& block) const {
  const std::size_t top = parts_.front().written.end;
  std::string before;
  if (at > top && text_[at - 1] != '\n') before += line_feed_;
  if (at > top && !is_blank(line_at(line_begin(at - 1)))) before += line_feed_;
  const bool is_on_text = at < text_.size() && !is_blank(line_at(at));
  return {{at, at}, before + block + (is_on_text ? line_feed_ : "")};
}

/// The keys to write where a part is written, for what the path leads to.
std::string TomlEditor::dotted_key(const TomlPart& holder, const TomlPath& path) const {
  return text_of(TomlPath(path.begin() + std::ssize(holder.path), path.end()));
}

Edit TomlEditor::set(const TomlPath& path, const Json& value) {
  if (path.empty()) return refusal("the path is empty", R"(write the keys that lead there: ["finishes", "walls"])");
  if (auto problem = unwritable(value)) return tl::unexpected(std::move(*problem));
  const TomlValue* now = value_at(document_, path);
  if (now == nullptr) return insert_new(path, value);
  if (is_same(*now, value)) return {};
  if (const auto* table = std::get_if<TomlTable>(&now->content); table != nullptr && value.is_object()) {
    return set_table(path, TomlTable(*table), value);
  }
  if (const TomlPart* part = written_value(path)) return commit({{part->value, toml_value_text(value)}});
  const auto* array = std::get_if<TomlArray>(&now->content);
  if (array != nullptr && is_list_of_tables(value)) return set_elements(path, array->size(), value);
  const Edit removed = remove(path);
  return removed ? insert_new(path, value) : removed;
}

Edit TomlEditor::rewrite(const std::vector<std::pair<TomlPath, Json>>& values) {
  std::vector<Patch> patches;
  for (const auto& [path, value] : values) {
    if (const TomlPart* part = written_value(path)) patches.push_back({part->value, toml_value_text(value)});
  }
  return commit(std::move(patches));
}

Edit TomlEditor::set_table(const TomlPath& path, const TomlTable& now, const Json& value) {
  for (const auto& [key, part] : value.items()) {
    if (const Edit done = set(extended(path, key), part); !done) return done;
  }
  for (const TomlEntry& entry : now.entries) {
    if (value.contains(entry.key)) continue;
    if (const Edit done = remove(extended(path, entry.key)); !done) return done;
  }
  return {};
}

/// Of an array of tables.
Edit TomlEditor::set_elements(const TomlPath& path, std::size_t count, const Json& value) {
  const std::size_t common = std::min(count, value.size());
  for (std::size_t i = 0; i < common; ++i) {
    if (const Edit done = set(extended(path, i), value[i]); !done) return done;
  }
  if (count > common) return remove_sections(path, common, count - common);
  return add(path, {value.begin() + static_cast<std::ptrdiff_t>(common), value.end()});
}

Edit TomlEditor::insert_new(const TomlPath& path, Json value) {
  const TomlPath table = known_part(document_, path);
  const TomlValue& known = *value_at(document_, table);
  if (!std::holds_alternative<TomlTable>(known.content) || has_number(path, table.size())) {
    TextProblem problem = unknown_path(document_, path);
    if (!problem.hint.empty() && std::holds_alternative<TomlArray>(known.content)) {
      problem.hint += R"(; {"add": [...], "value": ...} appends an element)";
    }
    return tl::unexpected(std::move(problem));
  }
  for (std::size_t i = path.size(); --i > table.size();)
    value = Json::object({{std::get<std::string>(path[i]), value}});
  return insert(table, std::get<std::string>(path[table.size()]), value);
}

Edit TomlEditor::insert(const TomlPath& table, const std::string& key, const Json& value) {
  const TomlPath path = extended(table, key);
  if (const TomlPart* part = written_value(table)) {
    return insert_in_braces(*part, key_text(key) + " = " + toml_value_text(value));
  }
  if (table.empty() && is_list_of_tables(value)) return add(path, {value.begin(), value.end()});
  const TomlPart* section = find(table, Kind::section);
  if (section == nullptr) {
    const TomlPart& first = *first_below(table);
    if (first.kind != Kind::section) return insert_beside(first, path, value);
  }
  if (value.is_object() && (section == nullptr || table.empty())) {
    return commit({inserted_block(place_below(table), section_text(path, false, value))});
  }
  if (section == nullptr) {
    return commit({inserted_block(place_below(table), section_text(table, false, Json::object({{key, value}})))});
  }
  const std::string line = key_text(key) + " = " + toml_value_text(value);
  const auto lines = held_by(*section);
  if (lines.empty() && table.empty() && parts_.size() > 1) {
    const std::size_t at = section_begin(parts_[1]);
    return commit({{{at, at}, line + line_feed_ + line_feed_}});
  }
  std::string indent;
  if (!lines.empty()) {
    const std::size_t begin = line_begin(lines.back()->written.begin);
    indent = text_.substr(begin, lines.back()->written.begin - begin);
  }
  return commit({inserted_line(own_end(*section), indent + line)});
}

Edit TomlEditor::insert_in_braces(const TomlPart& part, const std::string& pair) {
  const auto pairs = held_by(part);
  if (pairs.empty()) return commit({{part.value, "{ " + pair + " }"}});
  const std::size_t at = pairs.back()->written.end;
  return commit({{{at, at}, ", " + pair}});
}

/// A key of a table that is written by dotted keys alone, `dotted` the first of them.
Edit TomlEditor::insert_beside(const TomlPart& dotted, const TomlPath& path, const Json& value) {
  const TomlPath table(path.begin(), path.end() - 1);
  const TomlPart* last = &dotted;
  for (const TomlPart& part : parts_) {
    if (part.holder == dotted.holder && part.kind == dotted.kind && begins_with(part.path, table)) last = &part;
  }
  const std::string pair = dotted_key(parts_[dotted.holder], path) + " = " + toml_value_text(value);
  const std::size_t end = last->written.end;
  if (dotted.kind == Kind::pair) return commit({{{end, end}, ", " + pair}});
  const std::size_t begin = line_begin(last->written.begin);
  const std::string indent = text_.substr(begin, last->written.begin - begin);
  return commit({inserted_line(line_end(end), indent + pair)});
}

Edit TomlEditor::add(const TomlPath& path, const std::vector<Json>& values) {
  if (path.empty()) return refusal("the path is empty", R"(write the keys that lead to a list: ["cans"])");
  for (const Json& value : values) {
    if (auto problem = unwritable(value)) return tl::unexpected(std::move(*problem));
  }
  const TomlValue* now = value_at(document_, path);
  if (values.empty()) return now != nullptr ? Edit{} : insert_new(path, Json::array());
  if (now != nullptr && !std::holds_alternative<TomlArray>(now->content)) {
    return refusal(text_of(path) + " is no list", R"({"set": [...], "value": ...} gives a value to a key)");
  }
  if (const TomlPart* part = written_value(path)) return append_in_brackets(*part, values);
  const TomlPath table = known_part(document_, path);
  const TomlPart* first = first_below(table);
  const bool is_in_table = std::holds_alternative<TomlTable>(value_at(document_, table)->content);
  const bool is_of_sections = now != nullptr || table.empty() ||
                              (first->kind == Kind::section && is_in_table && !has_number(path, table.size()));
  if (!is_of_sections) return insert_new(path, Json(values));
  std::string block;
  for (const Json& value : values) {
    if (!value.is_object()) {
      return refusal(fmt::format("an element of {} is no table", text_of(path)), R"(write {"type": "six_inch", ...})");
    }
    block += (block.empty() ? "" : line_feed_) + section_text(path, true, value);
  }
  return commit({inserted_block(place_below(now != nullptr ? path : table), block)});
}

Edit TomlEditor::append_in_brackets(const TomlPart& part, const std::vector<Json>& values) {
  const auto elements = held_by(part);
  std::string list;
  for (const Json& value : values) list += (list.empty() ? "" : ", ") + toml_value_text(value);
  if (elements.empty()) return commit({{{part.value.begin + 1, part.value.begin + 1}, list}});
  const TomlSpan& last = elements.back()->written;
  if (!is_alone_on_lines(*elements.back())) return commit({{{last.end, last.end}, ", " + list}});
  const std::size_t begin = line_begin(last.begin);
  const bool has_comma = elements.back()->comma.has_value();
  std::string lines;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const bool is_last = i + 1 == values.size();
    lines += text_.substr(begin, last.begin - begin) + toml_value_text(values[i]) + (has_comma || !is_last ? "," : "") +
             line_feed_;
  }
  const std::size_t next_line = line_end(last.end);
  std::vector<Patch> patches{{{next_line, next_line}, lines}};
  if (!has_comma) patches.push_back({{last.end, last.end}, ","});
  return commit(std::move(patches));
}

Edit TomlEditor::remove(const TomlPath& path) {
  if (path.empty()) return refusal("the path is empty", R"(write the keys that lead there: ["cans", 2])");
  if (value_at(document_, path) == nullptr) return tl::unexpected(unknown_path(document_, path));
  if (std::holds_alternative<std::size_t>(path.back())) {
    if (const TomlPart* element = find(path, Kind::element)) return remove_element(*element);
    return remove_sections({path.begin(), path.end() - 1}, std::get<std::size_t>(path.back()), 1);
  }
  while (const TomlPart* first = first_below(path)) {
    const TomlSpan line{line_begin(first->written.begin), line_end(first->written.end)};
    const Edit done = first->kind == Kind::section ? remove_sections(sections_below(path))
                      : first->kind == Kind::pair  ? remove_pair(*first)
                                                   : commit({{line, ""}});
    if (!done) return done;
  }
  return {};
}

Edit TomlEditor::replace_elements(const TomlPath& path, const std::vector<Json>& values) {
  const TomlValue* now = value_at(document_, path);
  const auto* array = now == nullptr ? nullptr : std::get_if<TomlArray>(&now->content);
  if (array == nullptr || written_value(path) != nullptr) return set(path, Json(values));
  const std::size_t count = array->size();
  const Edit added = add(path, values);
  return added ? remove_sections(path, 0, count) : added;
}

/// Elements of an array of tables, with the tables in them.
Edit TomlEditor::remove_sections(const TomlPath& path, std::size_t first, std::size_t count) {
  auto sections = sections_below(path);
  std::erase_if(sections, [&](const TomlPart* section) {
    const auto index = std::get<std::size_t>(section->path[path.size()]);
    return index < first || index >= first + count;
  });
  return remove_sections(sections);
}

Edit TomlEditor::remove_sections(const std::vector<const TomlPart*>& sections) {
  std::vector<Patch> patches;
  for (const TomlPart* section : sections) patches.push_back({section_to_remove(*section), ""});
  return commit(std::move(patches));
}

/// In braces, where no comma may stand behind the last pair.
Edit TomlEditor::remove_pair(const TomlPart& pair) {
  const TomlPart& holder = parts_[pair.holder];
  const auto pairs = held_by(holder);
  if (pairs.size() == 1) return commit({{holder.value, "{}"}});
  const auto at = std::ranges::find(pairs, &pair);
  const bool is_last = at + 1 == pairs.end();
  const TomlSpan span = is_last ? TomlSpan{(*(at - 1))->written.end, pair.written.end}
                                : TomlSpan{pair.written.begin, (*(at + 1))->written.begin};
  return commit({{span, ""}});
}

/// In brackets, where comments may stand too.
Edit TomlEditor::remove_element(const TomlPart& element) {
  const TomlSpan& own = element.written;
  if (is_alone_on_lines(element)) return commit({{{line_begin(own.begin), line_end(own.end)}, ""}});
  if (element.comma) return commit({{{own.begin, text_.find_first_not_of(" \t", *element.comma + 1)}, ""}});
  // The comma before it, where nothing else is between.
  const std::size_t before = text_.find_last_not_of(" \t", own.begin - 1);
  return commit({{{text_[before] == ',' ? before : own.begin, own.end}, ""}});
}

}  // namespace evenlit

#include "toml_layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "toml_document.hpp"
#include "toml_text.hpp"

namespace evenlit {
namespace {

constexpr std::string_view k_byte_order_mark = "\xef\xbb\xbf";

/// Walks through a text that is known to be TOML.
class LayoutScanner {
 public:
  explicit LayoutScanner(std::string_view text) : text_(text) {}

  [[nodiscard]] std::vector<TomlPart> parts() && {
    if (text_.starts_with(k_byte_order_mark)) at_ = k_byte_order_mark.size();
    parts_.push_back({.written = {at_, at_}});
    std::size_t section = 0;
    for (skip_blanks(); at_ < text_.size(); skip_blanks()) {
      if (text_[at_] == '[') {
        section = parts_.size();
        take_header();
      } else {
        take_pair(TomlPart::Kind::line, section);
      }
    }
    return std::move(parts_);
  }

 private:
  [[nodiscard]] bool sees(std::string_view next) const { return text_.substr(at_).starts_with(next); }

  /// Spaces, line ends and comments.
  void skip_blanks() {
    while (at_ < text_.size()) {
      if (text_[at_] == '#') {
        at_ = std::min(text_.find('\n', at_), text_.size());
      } else if (std::string_view(" \t\r\n").find(text_[at_]) != std::string_view::npos) {
        ++at_;
      } else {
        return;
      }
    }
  }

  void skip_string() {
    const char quote = text_[at_];
    const std::string mark(sees(std::string(3, quote)) ? 3 : 1, quote);
    at_ += mark.size();
    while (!sees(mark)) at_ += quote == '"' && text_[at_] == '\\' ? 2 : 1;
    at_ += mark.size();
    // Up to two quotes may stand right before the three that end a string of several lines.
    while (mark.size() == 3 && sees(std::string(1, quote))) ++at_;
  }

  /// The keys up to `end`, without it.
  std::vector<std::string> take_keys(char end) {
    const std::size_t begin = at_;
    while (text_[at_] != end) {
      if (text_[at_] == '"' || text_[at_] == '\'') {
        skip_string();
      } else {
        ++at_;
      }
    }
    return toml_keys(text_.substr(begin, at_ - begin));
  }

  void take_header() {
    const std::size_t begin = at_;
    const bool is_element = sees("[[");
    at_ += is_element ? 2 : 1;
    const std::vector<std::string> keys = take_keys(']');
    at_ += is_element ? 2 : 1;
    TomlPath path;
    for (std::size_t i = 0; i < keys.size(); ++i) {
      path.emplace_back(keys[i]);
      const bool is_new = is_element && i + 1 == keys.size();
      const auto count = is_new ? elements_.try_emplace(path, 0).first : elements_.find(path);
      if (count == elements_.end()) continue;
      if (is_new) ++count->second;
      path.emplace_back(count->second - 1);
    }
    parts_.push_back({.path = std::move(path), .written = {begin, at_}, .holder = parts_.size()});
  }

  void take_pair(TomlPart::Kind kind, std::size_t holder) {
    const std::size_t begin = at_;
    TomlPath path = parts_[holder].path;
    for (std::string& key : take_keys('=')) path.emplace_back(std::move(key));
    ++at_;
    skip_blanks();
    take_value({.kind = kind, .path = std::move(path), .written = {begin, 0}, .holder = holder});
  }

  void take_value(TomlPart part) {
    const std::size_t index = parts_.size();
    const std::size_t begin = at_;
    part.is_in_braces = text_[at_] == '{';
    part.is_in_brackets = text_[at_] == '[';
    parts_.push_back(part);
    if (part.is_in_braces) {
      take_list('}', [&](std::size_t) { take_pair(TomlPart::Kind::pair, index); });
    } else if (part.is_in_brackets) {
      take_list(']', [&](std::size_t element) {
        take_value({.kind = TomlPart::Kind::element,
                    .path = extended(part.path, element),
                    .written = {at_, 0},
                    .holder = index});
      });
    } else if (text_[at_] == '"' || text_[at_] == '\'') {
      skip_string();
    } else {
      at_ = std::min(text_.find_first_of(",]}#\r\n", at_), text_.size());
      at_ = text_.find_last_not_of(" \t", at_ - 1) + 1;
    }
    parts_[index].value = {begin, at_};
    parts_[index].written.end = at_;
  }

  template <class Take>
  void take_list(char end, const Take& take) {
    ++at_;
    skip_blanks();
    for (std::size_t element = 0; text_[at_] != end; ++element) {
      const std::size_t index = parts_.size();
      take(element);
      skip_blanks();
      if (text_[at_] == ',') parts_[index].comma = at_++;
      skip_blanks();
    }
    ++at_;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::vector<TomlPart> parts_;
  std::map<TomlPath, std::size_t> elements_;  ///< of arrays of tables so far
};

}  // namespace

bool begins_with(const TomlPath& path, const TomlPath& prefix) {
  return path.size() >= prefix.size() && std::equal(prefix.begin(), prefix.end(), path.begin());
}

TomlPath extended(TomlPath path, TomlStep step) {
  path.push_back(std::move(step));
  return path;
}

std::string text_of(const TomlPath& path) {
  std::string text;
  for (const TomlStep& step : path) {
    if (const auto* key = std::get_if<std::string>(&step)) {
      if (!text.empty()) text += '.';
      text += key_text(*key);
    } else {
      text += fmt::format("[{}]", std::get<std::size_t>(step));
    }
  }
  return text;
}

std::vector<TomlPart> toml_layout(std::string_view text) { return LayoutScanner(text).parts(); }

}  // namespace evenlit

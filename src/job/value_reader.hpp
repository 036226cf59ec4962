#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "evenlit/base/length.hpp"
#include "evenlit/job/job.hpp"
#include "toml_document.hpp"

namespace evenlit {

struct Limit {
  double value = 0;
  std::string_view text;  ///< as a message names it
  bool is_included = true;
};

struct Range {
  Limit least;
  Limit most;
  std::string_view hint = {};  ///< shown instead of the limits when a value is out of range
};

struct WrittenQuantity;

/// Turns TOML values into what a job is made of and collects what is wrong with them.
///
/// A value that is not there (`nullptr`) is read as an empty optional without a problem. `label` names the value in a
/// message: "room width", "can level".
class ValueReader {
 public:
  std::optional<double> number(const TomlValue* value, std::string_view label, const Range& range);
  std::optional<double> length_m(const TomlValue* value, std::string_view label, const Range& range);
  std::optional<double> fraction(const TomlValue* value, std::string_view label, const Range& range);
  std::optional<double> illuminance_lx(const TomlValue* value, std::string_view label, const Range& range);

  std::optional<bool> yes_or_no(const TomlValue* value, std::string_view label);

  /// Text that is not empty.
  std::optional<std::string> text(const TomlValue* value, std::string_view label);

  const TomlTable* table(const TomlValue* value, std::string_view label);
  const TomlArray* array(const TomlValue* value, std::string_view label, std::string_view hint);

  void problem(const Place& place, std::string what, std::string hint);

  /// `what` with a hint at the known name that is nearest to `name`, or else at all of them.
  void unknown_name(const Place& place, std::string what, std::string_view name,
                    const std::vector<std::string_view>& known);

  /// Every problem so far, in file order.
  [[nodiscard]] Problems problems() const;

 private:
  std::optional<double> in_range(const TomlValue& value, double number, std::string_view label, const Range& range);
  void wrong_kind(const TomlValue& value, std::string_view label, std::string_view expected, std::string hint);
  std::optional<double> quantity(const TomlValue* value, std::string_view label, const Range& range,
                                 const WrittenQuantity& written);

  Problems problems_;
};

/// The keys of one table: each is asked for once, and those that nobody asked for are unknown.
class Fields {
 public:
  /// @param title of the table in messages: "[room]"
  Fields(const TomlValue& value, std::string title, ValueReader& reader);

  /// The value of a key, or `nullptr`.
  const TomlValue* find(std::string_view key);

  /// The value of a key that must be there; `hint` says what to add when it is not.
  const TomlValue* require(std::string_view key, std::string_view hint);

  /// Reports every key that was never asked for.
  void refuse_other_keys();

 private:
  const TomlTable* table_;  ///< null when the value is no table
  Place place_;
  std::string title_;
  ValueReader& reader_;
  std::vector<std::string_view> known_;
};

}  // namespace evenlit

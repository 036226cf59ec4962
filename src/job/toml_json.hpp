#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "evenlit/base/length.hpp"
#include "toml_document.hpp"

namespace evenlit {

/// Keeps the order of keys.
using Json = nlohmann::ordered_json;

/// Why a value cannot be written as TOML; empty where it can.
std::optional<TextProblem> unwritable(const Json& value);

/// A value on one line; objects in braces.
///
/// @param value that is not `unwritable`
std::string toml_value_text(const Json& value);

/// Whether a value that is written already means the same, whatever the order of a table's keys.
bool is_same(const TomlValue& written, const Json& value);

}  // namespace evenlit

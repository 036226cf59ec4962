#include "evenlit/photometry/lm63.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "candela_table.hpp"
#include "evenlit/base/number.hpp"
#include "lm63_header.hpp"
#include "lm63_text.hpp"
#include "lm63_tilt.hpp"
#include "text_body.hpp"
#include "type_ab.hpp"
#include "type_c.hpp"

namespace evenlit {
namespace {

/// What the numeric part holds.
struct DataSet {
  PhotometricFile file;
  Problems warnings;
  std::size_t extra_numbers = 0;  ///< that follow the candelas
};

AngleList angle_list(std::string_view name, const NumberStream& stream, const NumberRecord& record) {
  return in_file_order(name, record.values,
                       [&](Eigen::Index i) { return stream.place(record, static_cast<std::size_t>(i)); });
}

/// The candelas of the file times its factors, each vertical angle a row.
Result<Eigen::ArrayXXd> candela_table(const NumberStream& stream, const NumberRecord& candelas,
                                      const NumberRecord& vertical, const NumberRecord& horizontal, double factor,
                                      Problems& warnings) {
  const auto rows = std::ssize(vertical.values);
  const Eigen::Map<const Eigen::ArrayXXd> values(candelas.values.data(), rows, std::ssize(horizontal.values));
  const TableInFile in_file{
      .name = "candela value",
      .plural = "candela values",
      .value = [&](Eigen::Index i, Eigen::Index j) { return values(i, j); },
      .place = [&](Eigen::Index i,
                   Eigen::Index j) { return stream.place(candelas, static_cast<std::size_t>(j * rows + i)); },
      .direction =
          [&](Eigen::Index i, Eigen::Index j) {
            return fmt::format("vertical angle {}, horizontal angle {}",
                               shortest_text(vertical.values[static_cast<std::size_t>(i)]),
                               shortest_text(horizontal.values[static_cast<std::size_t>(j)]));
          }};
  return checked_candelas(factor * values, in_file, warnings);
}

void check_flux(const PhotometricFile& file, const Place& place, Problems& warnings) {
  if (!lamps_of(file).lumens) return;
  const double rated_lm = *lamps_of(file).lumens;
  const double lm = lumens(file.distribution);
  if (lm > 1.05 * rated_lm || (lm < 0.01 * rated_lm && lm > 0)) {
    warnings.push_back(
        {place,
         fmt::format("candela values add up to {} lm, {} the rated {} lm of the lamps", fixed_text(lm, 1),
                     lm > rated_lm ? "more than" : "less than 1 % of", fixed_text(rated_lm, 1)),
         ""});
  }
}

Result<IntensityDistribution> distribution_of(char type, AngleList vertical, AngleList horizontal,
                                              Eigen::ArrayXXd table, Lm63Version version, Problems& warnings) {
  using Axis = IntensityDistribution::Axis;
  if (type == 'C') {
    return type_c_distribution(std::move(vertical), std::move(horizontal), std::move(table),
                               version == Lm63Version::v1995, warnings);
  }
  return type_ab_distribution(std::move(vertical), std::move(horizontal), std::move(table),
                              type == 'A' ? Axis::vertical : Axis::along_c0, warnings);
}

LampSet lamp_set(const Lm63Header& header, const PhotometricFile& file) {
  LampSet lamps{.lamps = header.lamps, .type = std::string(keyword(file, "LAMP")), .watts = header.watts};
  if (header.lamp_lumens) lamps.lumens = header.lamps * *header.lamp_lumens;
  return lamps;
}

/// Remarks on what follows the candelas. Returns how many numbers do, where nothing but numbers does.
std::size_t check_rest(const NumberStream& stream, std::size_t verticals, Problems& warnings) {
  const std::string_view rest = trimmed(stream.rest());
  if (rest.empty()) return 0;
  const auto warn = [&](std::string what, std::string hint = {}) {
    std::string_view following = rest;
    warnings.push_back({stream.place(trimmed(take_line(following))), std::move(what), std::move(hint)});
  };
  for (std::string_view lines = rest; !lines.empty();) {
    if (!is_tilt_line(take_line(lines))) continue;
    warn("file holds more than one luminaire; the first is read");
    return 0;
  }
  const NumberCount extra = leading_numbers(rest);
  if (!extra.nothing_else) {
    warn("text after the candela values is ignored");
    return 0;
  }
  const bool whole_planes = extra.numbers % verticals == 0;
  warn(fmt::format("extra numbers after the candela values, ignored: {}", extra.numbers),
       whole_planes ? "the declared number of horizontal angles may be too small" : "");
  return extra.numbers;
}

/// @param numbers the numeric part of the file, byte for byte, as it is to be read
Result<DataSet> read_data(const Source& source, const Lm63Text& text, std::string_view numbers) {
  DataSet data;
  data.file.format = name_of(text.version);
  data.file.keywords = text.keywords;
  NumberStream stream(source, numbers, source.offset_of(text.numbers));

  if (text.tilt_line.tilt == Tilt::included) {
    auto tilt = read_tilt_data(stream, data.warnings);
    if (!tilt) return tl::unexpected(tilt.error());
    data.file.tilt = std::move(*tilt);
  }

  const auto head = stream.read(k_header_numbers, "numbers before the angles");
  if (!head) return tl::unexpected(head.error());
  const auto header = decode_header(stream, *head, text.version, data.warnings);
  if (!header) return tl::unexpected(header.error());
  data.file.generation = header->generation;
  data.file.lamp_sets = {lamp_set(*header, data.file)};
  data.file.opening = header->opening;

  const auto vertical = stream.read(header->verticals, "vertical angles");
  if (!vertical) return tl::unexpected(vertical.error());
  const auto horizontal = stream.read(header->horizontals, "horizontal angles");
  if (!horizontal) return tl::unexpected(horizontal.error());
  const auto candelas = stream.read(header->verticals * header->horizontals, "candela values",
                                    fmt::format("{} x {} = ", header->verticals, header->horizontals));
  if (!candelas) return tl::unexpected(candelas.error());

  auto table = candela_table(stream, *candelas, *vertical, *horizontal, header->candela_factor, data.warnings);
  if (!table) return tl::unexpected(table.error());
  auto distribution =
      distribution_of(header->type, angle_list("vertical", stream, *vertical),
                      angle_list("horizontal", stream, *horizontal), std::move(*table), text.version, data.warnings);
  if (!distribution) return tl::unexpected(distribution.error());
  data.file.distribution = std::move(*distribution);
  check_flux(data.file, lamp_lumens_place(stream, *head), data.warnings);

  if (const auto place = stream.doubled_comma()) {
    data.warnings.push_back({*place, "two commas without a number between them, read as one", ""});
  }
  data.extra_numbers = check_rest(stream, header->verticals, data.warnings);
  return data;
}

/// Where a comma first stands between two digits, so that it may be a decimal comma or a separator of thousands.
std::optional<std::size_t> comma_between_digits(std::string_view numbers) {
  for (std::size_t i = 1; i + 1 < numbers.size(); ++i) {
    if (numbers[i] == ',' && is_digit(numbers[i - 1]) && is_digit(numbers[i + 1])) return i;
  }
  return std::nullopt;
}

/// The data with commas as separators, as the standard has them. Where the counts do not fit that, decimal commas are
/// tried, if no number has a point; where neither fits, the file is refused, since values may have been cut in two.
Result<DataSet> read_data_with_commas(const Source& source, const Lm63Text& text, const std::string& numbers) {
  auto data = read_data(source, text, numbers);
  if (data && data->extra_numbers == 0) return data;
  const auto comma = comma_between_digits(numbers);
  if (!comma) return data;
  const Place place = source.place(text.numbers.substr(*comma, 1));

  if (numbers.find('.') == numbers.npos) {
    std::string with_points = numbers;
    std::ranges::replace(with_points, ',', '.');
    auto other = read_data(source, text, with_points);
    if (other && other->extra_numbers == 0) {
      other->warnings.push_back({place, "decimal commas, read as decimal points", "write decimal points"});
      return other;
    }
  }
  const std::string hint = "a comma separates numbers: write decimal points, and thousands without a separator";
  if (data) return failure(place, "commas between digits, and more numbers than declared", hint);
  Problems problems = data.error();
  problems.push_back({place, "commas between digits, read as separators", hint});
  return tl::unexpected(problems);
}

/// Tilt data from a file of their own in the same folder; none, with a warning, where there is no such file.
Result<std::optional<TiltData>> separate_tilt_data(const Source& source, std::string_view tilt_file,
                                                   const Neighbour& neighbour, Problems& warnings) {
  const auto unused = [&](std::string_view why, std::string_view hint) {
    warnings.push_back({source.place(tilt_file),
                        fmt::format("tilt file {} {}; tilt factor 1 is used", as_written(tilt_file), why),
                        std::string(hint)});
    return std::nullopt;
  };
  if (tilt_file.find_first_of("/\\:") != tilt_file.npos || tilt_file.starts_with('.')) {
    return unused("is not a plain file name", "put it beside the photometric file and write its name alone");
  }
  const auto bytes = neighbour ? neighbour(tilt_file) : std::nullopt;
  if (!bytes) return unused("is not there", "put it beside the photometric file");

  const std::string name(source.name().substr(0, source.name().find_last_of("/\\") + 1));
  const std::string path = name + utf8_text(tilt_file);
  const Source file(*bytes, path);
  const auto body = text_body(file);
  if (!body) return tl::unexpected(body.error());
  const std::string numbers = plain_numbers(file, *body, warnings);
  NumberStream stream(file, numbers, file.offset_of(*body));
  return read_tilt_data(stream, warnings).map([](TiltData data) { return std::optional(std::move(data)); });
}

}  // namespace

Result<Noted<PhotometricFile>> read_lm63(std::string_view bytes, std::string_view name, const Neighbour& neighbour) {
  const Source source(bytes, name);
  Problems warnings;
  const auto text = read_lm63_text(source, warnings);
  if (!text) return tl::unexpected(text.error());
  const std::string numbers = plain_numbers(source, text->numbers, warnings);
  auto data = read_data_with_commas(source, *text, numbers);
  if (!data) {
    sort_by_place(data.error());
    return tl::unexpected(data.error());
  }
  if (text->tilt_line.tilt == Tilt::separate) {
    auto tilt = separate_tilt_data(source, text->tilt_line.file, neighbour, warnings);
    if (!tilt) return tl::unexpected(tilt.error());
    data->file.tilt = std::move(*tilt);
  }
  warnings.insert(warnings.end(), data->warnings.begin(), data->warnings.end());
  sort_by_place(warnings);
  return Noted<PhotometricFile>{std::move(data->file), std::move(warnings)};
}

}  // namespace evenlit

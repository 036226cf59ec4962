#include "evenlit/photometry/read_photometric_file.hpp"

#include <fmt/format.h>

#include "evenlit/photometry/eulumdat.hpp"
#include "source.hpp"

namespace evenlit {
namespace {

Result<Noted<PhotometricFile>> read_single_set(std::string_view bytes, std::string_view name,
                                               const PhotometricReading& reading) {
  if (reading.lamp_set != 1) {
    return failure(whole_file(name), fmt::format("the file has no lamp set {}", reading.lamp_set),
                   "an LM-63 file has one lamp set");
  }
  return read_lm63(bytes, name, reading.neighbour);
}

void warn_of_extension(Noted<PhotometricFile>& file, std::string_view name, std::string_view extension,
                       std::string_view content) {
  if (!upper_case(name).ends_with(extension)) return;
  file.warnings.insert(file.warnings.begin(),
                       {whole_file(name), fmt::format("in spite of its name this is an {} file", content), ""});
}

}  // namespace

Result<Noted<PhotometricFile>> read_photometric_file(std::string_view bytes, std::string_view name,
                                                     const PhotometricReading& reading) {
  const bool eulumdat = is_eulumdat(bytes);
  auto file = eulumdat ? read_eulumdat(bytes, name, reading.lamp_set) : read_single_set(bytes, name, reading);
  if (!file) return file;
  warn_of_extension(*file, name, eulumdat ? ".IES" : ".LDT", eulumdat ? "EULUMDAT" : "LM-63");
  if (reading.strict && !file->warnings.empty()) return tl::unexpected(file->warnings);
  file->value = turned(std::move(file->value), reading.quarters);
  return file;
}

}  // namespace evenlit

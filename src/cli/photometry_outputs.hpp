#pragma once

#include <cxxopts.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "evenlit/base/length.hpp"
#include "evenlit/photometry/photometric_file.hpp"
#include "evenlit/photometry/write_photometric_file.hpp"
#include "input_files.hpp"
#include "option_reader.hpp"

namespace evenlit {

/// What the commands about one luminaire can write besides their text.
struct PhotometryOutputs {
  std::optional<std::filesystem::path> json;
  std::optional<std::filesystem::path> polar;
  std::optional<std::filesystem::path> linear;
  std::optional<std::filesystem::path> floor;
  std::optional<std::filesystem::path> file;  ///< a photometric file
  PhotometricFormat format = PhotometricFormat::lm63_2002;
  double height_m = 0;  ///< of the luminaire over the floor
  Units units = Units::imperial;
  int width_px = 0;
};

void add_output_options(cxxopts::OptionAdder& add);

PhotometryOutputs read_outputs(OptionReader& reader);

/// Writes what is asked for, and prints the figures of the luminaire.
///
/// @param name     of the luminaire in the text and the pictures
/// @param warnings from reading it
/// @return the exit status
int present_luminaire(const PhotometricFile& luminaire, const std::string& name, Problems warnings,
                      const PhotometryOutputs& outputs, const InputFiles& inputs);

}  // namespace evenlit

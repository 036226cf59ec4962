#include "evenlit/photometry/write_photometric_file.hpp"

#include "write_eulumdat.hpp"
#include "write_lm63.hpp"

namespace evenlit {

std::string_view name_of(PhotometricFormat format) {
  switch (format) {
    case PhotometricFormat::lm63_2002:
      return name_of(Lm63Version::v2002);
    case PhotometricFormat::lm63_2019:
      return name_of(Lm63Version::v2019);
    default:
      return "EULUMDAT";
  }
}

Noted<std::string> photometric_bytes(const PhotometricFile& file, PhotometricFormat format) {
  switch (format) {
    case PhotometricFormat::lm63_2002:
      return lm63_bytes(file, Lm63Version::v2002);
    case PhotometricFormat::lm63_2019:
      return lm63_bytes(file, Lm63Version::v2019);
    default:
      return eulumdat_bytes(file);
  }
}

}  // namespace evenlit

// Writes the invented photometric files of this folder: generic_photometry DIR. Prints the table of README.md.
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "generic_types.hpp"

int main(int argc, char** argv) {
  if (argc != 2) {
    std::fputs("usage: generic_photometry DIR\n", stderr);
    return 2;
  }
  for (const auto& type : evenlit::generic::types()) {
    const auto path = std::filesystem::path(argv[1]) / (type.name + ".ies");
    std::ofstream file(path, std::ios::binary);
    file << evenlit::generic::file_text(type);
    if (!file.flush()) {
      fmt::print(stderr, "{}: cannot be written\n", path.string());
      return 1;
    }
  }
  fmt::print("{}", evenlit::generic::table_text());
}

#pragma once

#include <filesystem>
#include <map>
#include <string>

/// How a command ended and what it said.
struct Run {
  int status = 0;  ///< as a shell tells it: 128 and more after a signal
  std::string out;
  std::string err;
};

/// A fresh folder in which the real program is run; gone with this object.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  void write(const std::string& name, const std::string& bytes) const;
  [[nodiscard]] std::string read(const std::string& name) const;

  /// The content of every regular file, hidden ones too, by its name.
  [[nodiscard]] std::map<std::string, std::string> files() const;

  /// Runs a shell command line in the folder; `evenlit` in it is the program under test.
  [[nodiscard]] Run run(const std::string& command) const;

  [[nodiscard]] std::filesystem::path path() const { return root_ / "desk"; }

 private:
  std::filesystem::path root_;
};

/// A small room of one can made by formula, to be spoilt by `with`.
std::string sample_job();

/// `text` with the first `from` replaced; ends the test when it is not there.
std::string with(const std::string& text, const std::string& from, const std::string& to);

/// A photometric file of the sources that ship.
std::string shipped_photometry();

/// Runs `evenlit light ARGUMENTS` and expects the message, status 2, no table and every file as it was.
void check_refused(const Folder& folder, const std::string& arguments, const std::string& message);

#pragma once
// One function a verb of the command line; none needs a display. Each returns the exit code.
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace likeleaf::app {

struct FindingsOptions {
  std::filesystem::path book;
  std::string trial;
  bool json = false, fahrenheit = false, comma = false;
};
int findings_verb(const FindingsOptions& options);

struct ReportOptions {
  std::filesystem::path book, out;
  std::string trial;
  bool fahrenheit = false, comma = false, letter = false;
};
int report_verb(const ReportOptions& options);

struct ImportOptions {
  std::filesystem::path bundle;              ///< a bundle, or the sheets table of a paper trial
  std::optional<std::filesystem::path> key;  ///< the key table of a paper trial
  std::filesystem::path into;
  std::string changes, question, house, reference;
  std::vector<std::string> deciding;
  std::string margin = "1";
  std::string tasted_at;
  std::string tasted_on;  ///< "2026-03-02": the day of a paper trial, part of what it is
};
int import_verb(const ImportOptions& options);

struct ExportOptions {
  std::filesystem::path book, out;
  std::string trial;
};
int export_verb(const ExportOptions& options);

int check_verb(const std::filesystem::path& book);
int sample_verb(const std::filesystem::path& out);

}  // namespace likeleaf::app

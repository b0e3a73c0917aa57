#include "core/base/embedded.h"

#include <algorithm>
#include <span>

namespace likeleaf {
namespace detail {
struct EmbeddedFile {
  std::string_view name, bytes;
};
extern const EmbeddedFile embedded_files[];
extern const std::size_t embedded_count;
}  // namespace detail

namespace {
std::span<const detail::EmbeddedFile> all() {
  return {detail::embedded_files, detail::embedded_count};
}
}  // namespace

std::optional<std::string_view> embedded(std::string_view name) {
  for (const auto& file : all())
    if (file.name == name) return file.bytes;
  return std::nullopt;
}

std::vector<std::string_view> embedded_names(std::string_view prefix) {
  std::vector<std::string_view> out;
  for (const auto& file : all())
    if (file.name.starts_with(prefix)) out.push_back(file.name);
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace likeleaf

#include "core/exchange/bundle_read.h"

#include <fmt/format.h>

#include <memory>

#include "core/base/number_text.h"
#include "core/codec/codec.h"
#include "core/codec/trial_document.h"
#include "core/exchange/atomic_file.h"
#include "core/exchange/bundle_write.h"

namespace likeleaf::exchange {
namespace {

using nlohmann::json;

static_assert(bundle_size_limit == document_limit && bundle_depth_limit == depth_limit);

Error placed(Error error, const std::string& file) {
  if (!file.empty()) error.where = error.where.empty() ? file : file + ": " + error.where;
  return error;
}

/// A map of records by id: two of one id are refused, as the second would swallow the first.
template <class Id, class Value, class IdOfValue>
void fill_map(ObjectReader& reader, const std::string& key, std::vector<Value> values,
              std::map<Id, std::shared_ptr<const Value>>& into, IdOfValue id_of) {
  for (std::size_t i = 0; i < values.size(); ++i) {
    const Id id = id_of(values[i]);
    if (!into.emplace(id, std::make_shared<const Value>(std::move(values[i]))).second)
      reader.refuse({ErrorKind::duplicate, key, id.text(), "each once", pointer_to(reader.at(key), i)});
  }
}

Result<TrialImport> read_draft_part(const json& value, const std::string& pointer) {
  TrialImport import;
  ObjectReader reader(value, pointer);
  reader.need_as("plan", import.trial.draft);
  reader.need_as("registers", import.registers);
  reader.need_as("attributes", import.attributes);
  if (auto done = reader.done(); !done) return tl::unexpected(done.error());
  return import;
}

void read_tasting(ObjectReader& reader, Trial& trial) {
  reader.need_as("servings", trial.servings);
  std::vector<Sheet> sheets;
  reader.need_as("sheets", sheets);
  fill_map(reader, "sheets", std::move(sheets), trial.sheets, [](const Sheet& sheet) { return sheet.serving; });
  reader.need_as("days", trial.days);
  reader.need_as("weighed", trial.weighed);
  reader.need_as("voids", trial.voids);
  reader.need_as("amendments", trial.amendments);
  reader.need_as("exclusions", trial.exclusions);
  reader.need_as("openings", trial.openings);
  reader.find_as("rule", trial.rule);
}

/// Key, brews and served temperatures come with the unmask record or not at all.
void read_keyed_side(ObjectReader& reader, Trial& trial) {
  reader.find_as("unmasked", trial.unmasked);
  if (!trial.unmasked) {
    for (const char* key : {"key", "brews", "served"})
      if (reader.find(key) != nullptr)
        reader.refuse(
            {ErrorKind::not_allowed, key, "present", "only in the bundle of an unmasked trial", reader.at(key)});
    return;
  }
  Key key;
  reader.need_as("key", key);
  trial.key = std::make_shared<const Key>(std::move(key));
  std::vector<Brew> brews;
  reader.need_as("brews", brews);
  fill_map(reader, "brews", std::move(brews), trial.brews, [](const Brew& brew) { return brew.id; });
  std::vector<ServedPair> served;
  reader.need_as("served", served);
  for (std::size_t i = 0; i < served.size(); ++i)
    if (!trial.served.emplace(served[i].pair, served[i]).second)
      reader.refuse({ErrorKind::duplicate, "served", served[i].pair.text(), "each pair once",
                     pointer_to(reader.at("served"), i)});
}

void read_sealed_trial(ObjectReader& reader, TrialImport& import) {
  SealedPlan sealed;
  reader.need_as("sealed", sealed);
  import.trial.draft = sealed.plan;
  import.registers = sealed.registers;
  import.attributes = sealed.attributes;
  import.trial.sealed = std::make_shared<const SealedPlan>(std::move(sealed));
  read_tasting(reader, import.trial);
  read_keyed_side(reader, import.trial);
}

Result<TrialImport> read_trial(const json& value, const std::string& pointer) {
  TrialImport import;
  ObjectReader reader(value, pointer);
  if (reader.good() && reader.find("draft") != nullptr)
    reader.need_as("draft", import, read_draft_part);
  else
    read_sealed_trial(reader, import);
  reader.need_as("created", import.trial.created);
  if (auto done = reader.done(); !done) return tl::unexpected(done.error());
  return import;
}

/// Format and version come first: a newer bundle may have keys that this reader does not know.
Result<void> check_envelope(const json& document) {
  if (!document.is_object())
    return fail(ErrorKind::malformed, "file", document.type_name(), "a bundle: one JSON object", "/");
  const auto format = document.find("format");
  if (format == document.end())
    return fail(ErrorKind::malformed, "format", {}, fmt::format("\"{}\": this is JSON, but no bundle", bundle_format),
                "/format");
  if (!format->is_string() || *format != bundle_format)
    return fail(ErrorKind::malformed, "format", shown_value(format->dump()),
                fmt::format("\"{}\": this is JSON, but no bundle", bundle_format), "/format");
  const auto version = document.find("version");
  if (version == document.end()) return fail(ErrorKind::missing, "version", {}, "1", "/version");
  const auto number = read_whole(*version, "/version", 1);
  if (!number) return tl::unexpected(number.error());
  if (*number > bundle_version)
    return fail(ErrorKind::newer_version, "version", fmt::format("{}", *number),
                fmt::format("up to {}", bundle_version), "/version");
  return {};
}

Result<TrialImport> read_document(const json& document) {
  if (auto good = check_envelope(document); !good) return tl::unexpected(good.error());
  TrialImport import;
  ObjectReader reader(document, "");
  reader.need("format");
  reader.need("version");
  std::string made_by;
  reader.need_as("made_by", made_by);
  reader.need_as("trial", import, read_trial);
  if (auto done = reader.done(); !done) return tl::unexpected(done.error());
  if (auto good = check_import(import); !good) {
    Error error = good.error();
    error.where = "/trial" + error.where;
    return tl::unexpected(std::move(error));
  }
  import.digest = trial_digest(import.trial, import.registers, import.attributes);
  return import;
}

}  // namespace

Result<TrialImport> read_bundle(std::string_view text, const std::string& file) {
  if (text.size() > bundle_size_limit)
    return fail(ErrorKind::too_large, "size", size_text(text.size()), "at most " + size_text(bundle_size_limit), file);
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  const auto document = parse_document(text, bundle_size_limit, bundle_depth_limit);
  if (!document) return tl::unexpected(placed(document.error(), file));
  auto import = read_document(*document);
  if (!import) return tl::unexpected(placed(import.error(), file));
  return import;
}

Result<TrialImport> read_bundle_file(const std::filesystem::path& path) {
  const auto bytes = read_file_limited(path, bundle_size_limit);
  if (!bytes) return tl::unexpected(bytes.error());
  return read_bundle(*bytes, path.string());
}

}  // namespace likeleaf::exchange

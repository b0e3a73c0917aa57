#include "core/exchange/bundle_write.h"

#include <nlohmann/json.hpp>

#include "core/codec/trial_document.h"

namespace likeleaf::exchange {

std::string bundle_text(const Trial& trial, const Registers& book, const std::vector<Attribute>& book_attributes,
                        const std::string& made_by) {
  // Made from the canonical text and not beside it, so that a bundle can hold nothing that the digest does not cover.
  const nlohmann::json bundle{{"format", bundle_format},
                              {"version", bundle_version},
                              {"made_by", made_by},
                              {"trial", nlohmann::json::parse(trial_text(trial, book, book_attributes))}};
  return bundle.dump(1) + "\n";
}

}  // namespace likeleaf::exchange

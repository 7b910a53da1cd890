#include "core/intake/schema_check.h"

namespace panel_dossier {
struct SchemaCheck::State {};
SchemaCheck::SchemaCheck(std::filesystem::path, Reporter&) {}
SchemaCheck::~SchemaCheck() = default;
void SchemaCheck::start_element(std::uint32_t, const StartTag&) {}
void SchemaCheck::end_element(const unsigned char*, const unsigned char*, const unsigned char*) {}
void SchemaCheck::text(const unsigned char*, int) {}
void SchemaCheck::finish() {}
}  // namespace panel_dossier

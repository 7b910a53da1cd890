#include "core/intake/graph/generation.h"

#include <array>
#include <utility>

#include "core/intake/graph/entity_type.h"

namespace panel_dossier {

namespace {

using namespace std::string_view_literals;

// Hosts under which the standard's namespaces have been published over the years (from memory).
constexpr std::array kHosts{"iai-tech.org"sv, "iai-international.org"sv, "buildingsmart-tech.org"sv,
                            "buildingsmart.org"sv};

// Longer first: IFC4X3 begins with IFC4.
constexpr std::array kSegments{
    std::pair{"IFC2X3"sv, Generation::ifc2x3},
    std::pair{"IFC4X3"sv, Generation::ifc4x3},
    std::pair{"IFC4_3"sv, Generation::ifc4x3},
    std::pair{"IFC4"sv, Generation::ifc4},
};

Generation generation_of_segment(const std::string& token) {
  for (const auto& [name, generation] : kSegments) {
    if (token.compare(0, name.size(), name) != 0) continue;
    // IFC4X1 and IFC4X2 were withdrawn and are not read.
    if (token.size() == name.size() || token[name.size()] == '_') return generation;
  }
  return Generation::unknown;
}

}  // namespace

Generation generation_of_namespace(std::string_view uri) {
  bool is_published = false;
  for (const std::string_view host : kHosts) is_published = is_published || uri.find(host) != std::string_view::npos;
  while (is_published && !uri.empty()) {
    const std::size_t slash = uri.find('/');
    const Generation found = generation_of_segment(enumeration_token(uri.substr(0, slash)));
    if (found != Generation::unknown) return found;
    uri.remove_prefix(slash == std::string_view::npos ? uri.size() : slash + 1);
  }
  return Generation::unknown;
}

Generation generation_of(const Element& root) {
  Generation found = generation_of_namespace(root.namespace_uri());
  for (Element child = root.first_child(); child && found == Generation::unknown; child = child.next_sibling()) {
    found = generation_of_namespace(child.namespace_uri());
  }
  return found;
}

std::string to_string(Generation generation) {
  switch (generation) {
    case Generation::ifc2x3: return "IFC2x3 TC1";
    case Generation::ifc4: return "IFC4 ADD2 TC1";
    case Generation::ifc4x3: return "IFC4X3 ADD2";
    case Generation::unknown: break;
  }
  return {};
}

}  // namespace panel_dossier

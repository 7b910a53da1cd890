// Materials, and what of them an object is made of.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/intake/graph/property_reader.h"
#include "core/intake/graph/unit_table.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

enum class LayerDirection { along_x, along_y, along_z };

/// A material layer set as the export orders it, with how it lies on the object where the export says so.
struct LayerSet {
  struct Usage {
    LayerDirection direction = LayerDirection::along_y;
    bool is_positive = true;  ///< layers follow one another towards positive y
    double offset_m = 0.0;    ///< of the first face from the reference line
  };

  std::vector<Layer> layers;   ///< y positions not yet set
  std::optional<Usage> usage;  ///< none when the set is given without an IfcMaterialLayerSetUsage
  Element at;
};

/// Belongs to one run on one thread; `project` must outlive it.
class MaterialReader {
 public:
  /// What the parts of one material say; none yet, the same for all, or an empty text where they say different things.
  struct Common {
    std::optional<std::string> classification;
    std::optional<std::string> article_number;
  };
  using PartNotes = std::map<std::size_t, Common>;  ///< by index into Project::materials

  MaterialReader(const ReadContext& context, UnitTable& units, PropertyReader& properties, Project& project)
      : context_(context), units_(units), properties_(properties), project_(project) {}

  /// The same for another thread, once `read` has read the materials.
  MaterialReader(const ReadContext& context, UnitTable& units, PropertyReader& properties, const MaterialReader& read)
      : context_(context), units_(units), properties_(properties), project_(read.project_), index_(read.index_) {}

  /// Fills Project::materials with every IfcMaterial of the file, in its order.
  void read();

  /// The only material of an object (or of its type); none when there is none or, with a warning, several. Two
  /// definitions of what an object is made of are an error, here and for the layer set.
  std::optional<std::size_t> single_material(const Element& object);

  /// The layer set of an object (or of its type).
  std::optional<LayerSet> layer_set(const Element& object);

  /// The IfcMaterialLayerSet of an object (or of its type); empty when it has none.
  Element layer_set_entity(const Element& object) const;

  /// Names of the materials of an object (or of its type), each once, with commas between.
  std::string material_names(const Element& object) const;

  /// Says that a part of the material alone has this classification and article number, either of which may be empty.
  void note_part(std::size_t material, const std::string& classification, const std::string& article_number);
  /// What was said so far, and the same of another reader of the same materials.
  const PartNotes& notes() const { return of_parts_; }
  void add_notes(const PartNotes& notes);
  /// Gives the materials what their parts have in common, where they have no such thing themselves.
  void name_after_parts();

  /// The entities behind Project::materials, by index.
  const std::vector<Element>& entities() const { return context_.graph.all("IfcMaterial"); }

 private:
  const ReadContext& context_;
  UnitTable& units_;
  PropertyReader& properties_;
  Project& project_;
  std::unordered_map<const void*, std::size_t> index_;
  PartNotes of_parts_;
  std::unordered_set<const void*> several_;  ///< objects and types reported for it

  /// Reports an object (or its type) of which two definitions of materials are said, once.
  void check_single_definition(const Element& object);
  Element association(const Element& object) const;
  std::vector<Element> materials_in(const Element& association) const;
  std::optional<std::size_t> index_of(const Element& material) const;
  std::optional<Layer> read_layer(const Element& entity);
  std::optional<LayerSet::Usage> read_usage(const Element& entity);
};

}  // namespace panel_dossier

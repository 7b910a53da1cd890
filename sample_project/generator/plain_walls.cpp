#include "sample_project/generator/plain_walls.h"

#include <array>
#include <cstddef>
#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sample_project/generator/building.h"
#include "sample_project/generator/export_writer.h"
#include "sample_project/generator/ifc_writer.h"
#include "sample_project/generator/step_writer.h"

namespace sample_export {

namespace {

using Arguments = std::vector<std::string>;

// Inner walls of the building, which are no panels.
constexpr double kCoreWall_mm = 200.0;
constexpr double kSlab_mm = 275.0;
constexpr double kPlanLength_mm = 24000.0;
constexpr double kPlanDepth_mm = 12000.0;

/// What the office calls the materials in its CAD program: other words than the library's.
std::string cad_material(std::string_view key) {
  static const std::map<std::string_view, std::string> names{
      {"gypsum-f", "GKF 15"},
      {"vapour-control", "PE foil"},
      {"osb", "OSB 3 12 mm"},
      {"stone-wool", "Studs C24 / stone wool 035"},
      {"gypsum-h", "Gypsum sheathing 12.5"},
      {"breather", "Membrane outside"},
      {"fibre-cement", "Fibre cement 8"},
  };
  const auto found = names.find(key);
  return found == names.end() ? std::string("Air") : found->second;
}

std::string label(std::string_view text) {
  return step_string(std::string(text));
}

/// A real number with its point, as the form demands.
std::string real(double value) {
  std::string text = rounded_text(value, 6);
  if (text.find_first_of(".eE") == std::string::npos) text += '.';
  return text;
}

std::string list(const Arguments& items) {
  std::string text = "(";
  for (std::size_t i = 0; i < items.size(); ++i) text += (i == 0 ? "" : ",") + items[i];
  return text + ")";
}

class PlainWriter {
 public:
  explicit PlainWriter(const std::filesystem::path& file) : file_(file), stream_(file, std::ios::binary) {
    if (!stream_) throw std::runtime_error("cannot create '" + file.string() + "'");
  }

  void write() {
    begin();
    write_project();
    write_materials();
    write_types();
    const std::vector<PlacedPanel> panels = Site(panels_per_wing()).panels_of(0);
    for (const PlacedPanel& panel : panels) write_wall(panel);
    write_rest_of_building();
    write_relations();
    stream_ << "ENDSEC;\nEND-ISO-10303-21;\n";
    stream_.close();
    if (!stream_) throw std::runtime_error("cannot write '" + file_.string() + "'");
  }

 private:
  std::filesystem::path file_;
  std::ofstream stream_;
  std::size_t last_ = 0;
  std::string owner_;
  std::string body_;  ///< the context of bodies
  std::string axis_z_;
  std::string axis_x_;
  std::string project_;
  std::string building_;
  Arguments storeys_;
  Arguments storey_placements_;
  std::vector<Arguments> contained_;                  ///< by storey
  std::map<std::string, std::string> layer_sets_;     ///< by type key
  std::map<std::string, Arguments> walls_;            ///< by type key
  std::map<std::string, std::string> filling_types_;  ///< by filling key
  std::map<std::string, Arguments> fillings_;         ///< by filling key
  std::string core_material_;
  Arguments core_walls_;

  void begin() {
    stream_ << "ISO-10303-21;\nHEADER;\n"
               "FILE_DESCRIPTION(('ViewDefinition [CoordinationView]'),'2;1');\n"
               "FILE_NAME('health-centre-walls.ifc','2026-03-02T09:00:00',('Drawing office (fictional)'),(''),"
               "'sample-export','sample-export','');\n"
               "FILE_SCHEMA(('IFC2X3'));\nENDSEC;\nDATA;\n";
  }

  std::string add(std::string_view type, const Arguments& arguments) {
    std::string number = "#" + std::to_string(++last_);
    stream_ << number << "=" << type << list(arguments) << ";\n";
    return number;
  }

  /// GlobalId, owner and name, as every rooted entity begins.
  Arguments root(const std::string& path, const std::string& name) const {
    return {label(global_id("plain/" + path)), owner_, name.empty() ? "$" : label(name), "$"};
  }

  static Arguments joined(Arguments first, const Arguments& more) {
    first.insert(first.end(), more.begin(), more.end());
    return first;
  }

  std::string point(double x, double y, double z) {
    return add("IFCCARTESIANPOINT", {list({real(x), real(y), real(z)})});
  }
  std::string point(double x, double y) { return add("IFCCARTESIANPOINT", {list({real(x), real(y)})}); }
  std::string direction(const Point& d) { return add("IFCDIRECTION", {list({real(d.x), real(d.y), real(d.z)})}); }

  std::string placement(const std::string& relative_to, const Point& origin, const Point& x) {
    const std::string axes = add("IFCAXIS2PLACEMENT3D", {point(origin.x, origin.y, origin.z), axis_z_, direction(x)});
    return add("IFCLOCALPLACEMENT", {relative_to, axes});
  }

  void write_project() {
    const std::string person = add("IFCPERSON", {"$", label("Drawing"), "$", "$", "$", "$", "$", "$"});
    const std::string office = add("IFCORGANIZATION", {"$", label("Drawing office (fictional)"), "$", "$", "$"});
    const std::string both = add("IFCPERSONANDORGANIZATION", {person, office, "$"});
    const std::string application =
        add("IFCAPPLICATION", {office, label("1"), label("sample-export"), label("sample-export")});
    owner_ = add("IFCOWNERHISTORY", {both, application, "$", ".ADDED.", "$", "$", "$", "1772442000"});
    axis_z_ = direction({0.0, 0.0, 1.0});
    axis_x_ = direction({1.0, 0.0, 0.0});
    const std::string origin = add("IFCAXIS2PLACEMENT3D", {point(0.0, 0.0, 0.0), axis_z_, axis_x_});
    // The grid's y axis lies 20 degrees east of true north, as in the other export of the building.
    const std::string north = add("IFCDIRECTION", {list({real(-0.3420201433), real(0.9396926208)})});
    const std::string context =
        add("IFCGEOMETRICREPRESENTATIONCONTEXT", {"$", label("Model"), "3", "1.E-5", origin, north});
    body_ = add("IFCGEOMETRICREPRESENTATIONSUBCONTEXT",
                {label("Body"), label("Model"), "*", "*", "*", "*", context, "$", ".MODEL_VIEW.", "$"});
    const Arguments units{add("IFCSIUNIT", {"*", ".LENGTHUNIT.", ".MILLI.", ".METRE."}),
                          add("IFCSIUNIT", {"*", ".AREAUNIT.", "$", ".SQUARE_METRE."}),
                          add("IFCSIUNIT", {"*", ".VOLUMEUNIT.", "$", ".CUBIC_METRE."}),
                          add("IFCSIUNIT", {"*", ".PLANEANGLEUNIT.", "$", ".RADIAN."}),
                          add("IFCSIUNIT", {"*", ".THERMODYNAMICTEMPERATUREUNIT.", "$", ".KELVIN."})};
    const std::string assigned = add("IFCUNITASSIGNMENT", {list(units)});
    project_ =
        add("IFCPROJECT", joined(root("project", "Health centre, walls"),
                                 {"$", label("Health centre, walls"), label("Design"), list({context}), assigned}));
    const std::string site_placement = add("IFCLOCALPLACEMENT", {"$", origin});
    const std::string site = add(
        "IFCSITE", joined(root("site", "Site"), {"$", site_placement, "$", "$", ".ELEMENT.", "$", "$", "$", "$", "$"}));
    const std::string building_placement = placement(site_placement, {}, {1.0, 0.0, 0.0});
    building_ = add("IFCBUILDING", joined(root("building", "Health centre"),
                                          {"$", building_placement, "$", "$", ".ELEMENT.", "$", "$", "$"}));
    for (const Storey& storey : storeys()) {
      storey_placements_.push_back(placement(building_placement, {0.0, 0.0, storey.elevation_mm}, {1.0, 0.0, 0.0}));
      storeys_.push_back(add("IFCBUILDINGSTOREY", joined(root("storey/" + storey.name, storey.name),
                                                         {"$", storey_placements_.back(), "$", "$", ".ELEMENT.",
                                                          real(storey.elevation_mm)})));
    }
    contained_.resize(storeys_.size());
    add("IFCRELAGGREGATES", joined(root("rel/site", ""), {project_, list({site})}));
    add("IFCRELAGGREGATES", joined(root("rel/building", ""), {site, list({building_})}));
    add("IFCRELAGGREGATES", joined(root("rel/storeys", ""), {building_, list(storeys_)}));
  }

  void write_materials() {
    std::map<std::string, std::string> materials;
    const auto material = [&](const std::string& name) {
      const auto [found, is_new] = materials.try_emplace(name);
      if (is_new) found->second = add("IFCMATERIAL", {label(name)});
      return found->second;
    };
    for (const PanelType& type : panel_types()) {
      Arguments layers;
      for (const LayerSpec& layer : type.layers) {
        const bool is_air = layer.material_key.empty();
        const std::string ventilated = layer.role == LayerRole::cavity ? ".T." : ".F.";
        layers.push_back(add("IFCMATERIALLAYER", {is_air ? "$" : material(cad_material(layer.material_key)),
                                                  real(layer.thickness_mm), is_air ? ventilated : "$"}));
      }
      const std::string set = add("IFCMATERIALLAYERSET", {list(layers), label(type.key)});
      layer_sets_[std::string(type.key)] = add("IFCMATERIALLAYERSETUSAGE", {set, ".AXIS2.", ".POSITIVE.", "0."});
    }
    core_material_ = material("Concrete C30/37");
  }

  /// IfcWindowStyle and IfcDoorStyle, as the standard had them then.
  void write_types() {
    for (const FillingSpec& filling : filling_types()) {
      const std::string path = "style/" + std::string(filling.key);
      const Arguments begin = joined(root(path, std::string(filling.name)), {"$", "$", "$", label(filling.key)});
      filling_types_[std::string(filling.key)] =
          filling.is_door ? add("IFCDOORSTYLE", joined(begin, {".SINGLE_SWING_RIGHT.", ".ALUMINIUM.", ".F.", ".F."}))
                          : add("IFCWINDOWSTYLE", joined(begin, {".ALUMINIUM.", ".SINGLE_PANEL.", ".F.", ".F."}));
    }
  }

  /// A box from the origin of its placement.
  std::string box(double width, double depth, double height) {
    const std::string centre = add("IFCAXIS2PLACEMENT2D", {point(width / 2.0, depth / 2.0), "$"});
    const std::string profile = add("IFCRECTANGLEPROFILEDEF", {".AREA.", "$", centre, real(width), real(depth)});
    const std::string at = add("IFCAXIS2PLACEMENT3D", {point(0.0, 0.0, 0.0), axis_z_, axis_x_});
    const std::string solid = add("IFCEXTRUDEDAREASOLID", {profile, at, axis_z_, real(height)});
    const std::string shape = add("IFCSHAPEREPRESENTATION", {body_, label("Body"), label("SweptSolid"), list({solid})});
    return add("IFCPRODUCTDEFINITIONSHAPE", {"$", "$", list({shape})});
  }

  std::string property(const std::string& name, const std::string& value) {
    return add("IFCPROPERTYSINGLEVALUE", {label(name), "$", value, "$"});
  }

  void write_set(const std::string& path, const std::string& set, const Arguments& properties, const std::string& of) {
    const std::string written = add("IFCPROPERTYSET", joined(root(path + "/" + set, set), {list(properties)}));
    add("IFCRELDEFINESBYPROPERTIES", joined(root(path + "/rel/" + set, ""), {list({of}), written}));
  }

  void write_wall(const PlacedPanel& panel) {
    const PanelType& type = *panel.type;
    const std::string path = "wall/" + panel.mark;
    const double elevation = storeys()[panel.storey].elevation_mm;
    const std::string at = placement(storey_placements_[panel.storey],
                                     {panel.origin.x, panel.origin.y, panel.origin.z - elevation}, panel.direction);
    const std::string wall = add(
        "IFCWALLSTANDARDCASE",
        joined(root(path, panel.mark),
               {label(type.key), at, box(panel.width_mm, type.thickness_mm(), panel.height_mm), label(panel.mark)}));
    contained_[panel.storey].push_back(wall);
    walls_[std::string(type.key)].push_back(wall);
    write_set(
        path, "Pset_WallCommon",
        {property("Reference", "IFCIDENTIFIER(" + label(type.key) + ")"), property("IsExternal", "IFCBOOLEAN(.T.)"),
         property("LoadBearing", type.load_bearing() ? "IFCBOOLEAN(.T.)" : "IFCBOOLEAN(.F.)")},
        wall);
    for (std::size_t i = 0; i < panel.openings.size(); ++i) {
      write_opening(panel, panel.openings[i], path + "/opening/" + std::to_string(i + 1), wall, at);
    }
  }

  void write_opening(const PlacedPanel& panel, const PlacedOpening& placed, const std::string& path,
                     const std::string& wall, const std::string& wall_placement) {
    const Rectangle& face = placed.face;
    const FillingSpec& filling = *placed.filling;
    const std::string at = placement(wall_placement, {face.x_min, 0.0, face.z_min}, {1.0, 0.0, 0.0});
    const std::string shape = box(face.width(), panel.type->thickness_mm(), face.height());
    const std::string opening = add("IFCOPENINGELEMENT", joined(root(path, ""), {label("Opening"), at, shape, "$"}));
    add("IFCRELVOIDSELEMENT", joined(root(path + "/voids", ""), {wall, opening}));
    const std::string inside = placement(at, {}, {1.0, 0.0, 0.0});
    const std::string element =
        add(filling.is_door ? "IFCDOOR" : "IFCWINDOW",
            joined(root(path + "/filling", std::string(filling.name)),
                   {label(filling.key), inside, "$", label(filling.key), real(face.height()), real(face.width())}));
    add("IFCRELFILLSELEMENT", joined(root(path + "/fills", ""), {opening, element}));
    contained_[panel.storey].push_back(element);
    fillings_[std::string(filling.key)].push_back(element);
  }

  /// Slabs below each storey and the walls of the stair: what is beside the panels.
  void write_rest_of_building() {
    for (std::size_t storey = 0; storey < storeys_.size(); ++storey) {
      const std::string number = std::to_string(storey);
      const std::string at = placement(storey_placements_[storey], {0.0, 0.0, -kSlab_mm}, {1.0, 0.0, 0.0});
      contained_[storey].push_back(
          add("IFCSLAB", joined(root("slab/" + number, "Slab " + number),
                                {label("RC 275"), at, box(kPlanLength_mm, kPlanDepth_mm, kSlab_mm),
                                 label("SL-" + number), ".FLOOR."})));
      for (const double x : {10000.0, 13000.0}) {
        const std::string path = "core/" + number + "/" + number_text(x);
        const std::string foot = placement(storey_placements_[storey], {x, 4000.0, 0.0}, {0.0, 1.0, 0.0});
        const std::string wall =
            add("IFCWALLSTANDARDCASE",
                joined(root(path, "Stair wall"),
                       {label("CORE-200"), foot, box(5000.0, kCoreWall_mm, kStoreyHeight_mm - kSlab_mm),
                        label("CW-" + number)}));
        contained_[storey].push_back(wall);
        core_walls_.push_back(wall);
      }
    }
  }

  void write_relations() {
    for (std::size_t storey = 0; storey < storeys_.size(); ++storey) {
      add("IFCRELCONTAINEDINSPATIALSTRUCTURE",
          joined(root("rel/contained/" + std::to_string(storey), ""), {list(contained_[storey]), storeys_[storey]}));
    }
    for (const auto& [key, walls] : walls_) {
      add("IFCRELASSOCIATESMATERIAL", joined(root("rel/material/" + key, ""), {list(walls), layer_sets_.at(key)}));
    }
    add("IFCRELASSOCIATESMATERIAL", joined(root("rel/material/core", ""), {list(core_walls_), core_material_}));
    for (const auto& [key, fillings] : fillings_) {
      add("IFCRELDEFINESBYTYPE", joined(root("rel/style/" + key, ""), {list(fillings), filling_types_.at(key)}));
    }
    write_classification();
  }

  /// The office's own key of elements, by which the settings tell panels from other walls.
  void write_classification() {
    const std::string source =
        add("IFCCLASSIFICATION", {label("Drawing office (fictional)"), label("1"), "$", label("Office key")});
    const std::string reference =
        add("IFCCLASSIFICATIONREFERENCE", {"$", label("W-330"), label("Timber panel walls"), source});
    Arguments panels;
    for (const auto& [key, walls] : walls_) panels.insert(panels.end(), walls.begin(), walls.end());
    add("IFCRELASSOCIATESCLASSIFICATION", joined(root("rel/class", ""), {list(panels), reference}));
  }
};

}  // namespace

void write_plain_walls(const std::filesystem::path& file) {
  PlainWriter(file).write();
}

}  // namespace sample_export

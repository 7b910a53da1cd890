// Wrong projects that the fire checks must notice.
#include <stdexcept>
#include <string_view>
#include <utility>

#include "tests/consistency/wrong_project.h"

namespace panel_dossier::consistency {

namespace {

constexpr const char* kSeparating = "fire.resistance_integrity_insulation";
constexpr const char* kBearing = "fire.resistance_load_bearing";
constexpr const char* kRequirement = "fire.required_resistance";
constexpr const char* kReport = "fire.evidence";
constexpr const char* kSurfaces = "fire.reaction_to_fire";
constexpr const char* kOuterWall = "fire.external_wall_material";
constexpr const char* kBarriers = "fire.cavity_barriers";
constexpr const char* kLining = "Gypsum plasterboard type F";
constexpr const char* kFireWool = "Stone wool slab";

using NodeVisitor = std::function<void(pugi::xml_node)>;

void visit_named(pugi::xml_node node, std::string_view entity, const char* attribute, const std::string& value,
                 const NodeVisitor& visit) {
  for (pugi::xml_node child : node.children()) visit_named(child, entity, attribute, value, visit);
  if (entity == node.name() && node.attribute(attribute).value() == value) visit(node);
}

/// An attribute of the document of this id alone.
Edit set_document(std::string id, std::string attribute, std::string text) {
  return [=](WrongProject& project) {
    bool found = false;
    visit_named(project.model, "IfcDocumentReference", "Identification", id, [&](pugi::xml_node node) {
      found = true;
      node.attribute(attribute.c_str()).set_value(text.c_str());
    });
    if (!found) throw std::logic_error("the sample has no document " + id);
  };
}

/// The export's own record of the document: an IfcDocumentInformation with these attributes.
Edit describe_document(std::string id, std::vector<std::pair<std::string, std::string>> attributes) {
  return [=](WrongProject& project) {
    visit_named(project.model, "IfcDocumentReference", "Identification", id, [&](pugi::xml_node node) {
      pugi::xml_node record = node.append_child("ReferencedDocument");
      record.append_attribute("id").set_value(("record-" + id).c_str());
      record.append_attribute("Identification").set_value(id.c_str());
      record.append_attribute("Name").set_value("record");
      for (const auto& [name, text] : attributes) {
        pugi::xml_attribute given = record.attribute(name.c_str());
        if (!given) given = record.append_attribute(name.c_str());
        given.set_value(text.c_str());
      }
    });
  };
}

Edit describe_document(std::string id, std::string attribute, std::string text) {
  return describe_document(std::move(id), {{std::move(attribute), std::move(text)}});
}

/// One more property in each set of this name.
Edit add_property(std::string set, std::string name, std::string measure, std::string text) {
  return [=](WrongProject& project) {
    bool found = false;
    visit_named(project.model, "IfcPropertySet", "Name", set, [&](pugi::xml_node node) {
      found = true;
      pugi::xml_node property = node.child("HasProperties").append_child("IfcPropertySingleValue");
      property.append_attribute("Name").set_value(name.c_str());
      property.append_child("NominalValue").append_child((measure + "-wrapper").c_str()).text().set(text.c_str());
    });
    if (!found) throw std::logic_error("the sample has no set " + set);
  };
}

/// Line loads on panels of every type.
Edit loads_of_all() {
  return add_property("Panel_Structure", "PermanentLineLoad", "IfcLinearForceMeasure", "8000");
}

Edit everywhere(const char* location) {
  return set_attribute("IfcDocumentReference", "Location", location);
}

Edit tested(const char* text) {
  return set_property("Panel_FireEvidence.Resistance", text);
}
Edit required(const char* text) {
  return set_property("Panel_FireRequirement.Resistance", text);
}
Edit build_up(const char* text) {
  return set_property("Panel_FireEvidence.BuildUp", text);
}
Edit in_scotland() {
  return set_setting("project.jurisdiction", "Scotland");
}

/// The report FT-101 under an id that the register does not have, with this Scope of the export's own record.
Edit report_without_register(const char* scope) {
  return both(
      both(set_document("FT-101", "Identification", "FT-901"), set_property("Panel_FireEvidence.DocumentId", "FT-901")),
      describe_document("FT-901", {{"Identification", "FT-101"}, {"Scope", scope}}));
}

Edit said_inside() {
  return set_property("Pset_WallCommon.IsExternal", "false");
}

constexpr const char* kOtherCertificate = "evidence/COC-401-chain-of-custody.txt";

// Documents: there, and of the right thing.
const RegisterWrongCases kDocuments{{
    {"fire reports that are a certificate of timber", everywhere(kOtherCertificate), kReport,
     "does not name its number 'FT-101'"},
    {"a tested class behind a certificate of timber", set_document("FT-101", "Location", kOtherCertificate),
     kSeparating, "does not name its number 'FT-101'"},
    {"a fire report whose file is a price list", set_document("FT-101", "Location", "rates.csv"), kReport,
     "does not name its number 'FT-101'"},
    {"an environmental declaration as fire report", set_property("Panel_FireEvidence.DocumentId", "EPD-303"), kReport,
     "is of the kind 'environmental declaration'"},
    {"a certificate of the factory as fire report", set_property("Panel_FireEvidence.DocumentId", "FPC-601"),
     kSeparating, "is of the kind 'factory production control'"},
    {"an air test as fire report", set_property("Panel_FireEvidence.DocumentId", "AIR-501"), kSeparating,
     "is of the kind 'air test report'"},
    {"a fire report that the export does not have", set_property("Panel_FireEvidence.DocumentId", "FT-999"), kReport,
     "document 'FT-999' is not in the export"},
    {"no fire report named", drop_property("Panel_FireEvidence.DocumentId"), kReport, "no document is named"},
    {"a fire report that is not there", set_document("FT-101", "Location", "evidence/none.txt"), kSeparating,
     "no file at that place"},
    {"a fire report outside of the project", set_document("FT-101", "Location", "../report.txt"), kReport,
     "outside the project folder"},
    {"a fire report on a server", set_document("FT-101", "Location", "https://example.org/FT-101.pdf"), kReport,
     "outside the project folder"},
    {"a fire report that has expired", describe_document("FT-101", "ValidUntil", "2026-05-31"), kReport,
     "has expired on the assessment date 2026-06-01"},
    {"a fire report that is not issued yet", set_setting("project.assessment_date", "2025-10-13"), kSeparating,
     "is not issued on the assessment date"},
    {"a fire report of another day in the export and the register",
     describe_document("FT-101", "ValidFrom", "2026-06-02"), kSeparating,
     "its day 'issued' is '2026-06-02' in the export and '2025-10-14' in evidence/evidence.csv"},
    {"a fire report valid until 30 February", describe_document("FT-101", "ValidUntil", "2027-02-30"), kReport,
     "is no day"},
    {"a fire report under another number", describe_document("FT-101", "Identification", "FT-555"), kReport,
     "does not name its number 'FT-555'"},
    {"a fire report said to be a product declaration", describe_document("FT-101", "Purpose", "product declaration"),
     kReport, "its text says 'fire test report'"},
    {"a fire report with a last day and no day to judge it on",
     both(describe_document("FT-101", "ValidUntil", "2030-05-31"), drop_setting("project.assessment_date")), kReport,
     "set the day that counts"},
    {"a fire report that nobody issued to any standard on any day", report_without_register("walls"), kReport,
     "its record states no issuer (laboratory), no standard, no day of issue, no sponsor, no countries"},
    {"a fire report of no stated laboratory, for the class", report_without_register("walls"), kSeparating,
     "states no issuer (laboratory)"},
    {"a fire report made for another works", set_property("Pset_ManufacturerTypeInformation.Manufacturer", "Works B"),
     kReport, "was made for 'Panel manufacturer (fictional)' (its record), and the panel is made by 'Works B'"},
    {"a tested class of another works", set_property("Pset_ManufacturerTypeInformation.Manufacturer", "Works B"),
     kSeparating, "a permission to use it is not stated"},
    {"a fire report for other countries", set_setting("project.jurisdiction", "Germany"), kReport,
     "may be used in England, Wales (its record), and the project is in Germany"},
    {"a fire report for some countries, the project in none", drop_setting("project.jurisdiction"), kReport,
     "where the project is, is not given"},
    {"classes of a certificate of timber", set_document("RF-201", "Location", kOtherCertificate), kSurfaces,
     "does not name its number 'RF-201'"},
    {"a surface whose classification report is not there", set_document("RF-201", "Location", "evidence/none.txt"),
     kOuterWall, "no file at that place"},
    {"classes whose report has expired", describe_document("RF-201", "ValidUntil", "2026-05-31"), kOuterWall,
     "has expired"},
}};

// What the test shows, of what, and for what.
const RegisterWrongCases kTests{{
    {"tested for half an hour", tested("EI 30"), kSeparating, "shorter than the class required"},
    {"tested for integrity alone", tested("E 60"), kSeparating, "shorter than the class required"},
    {"tested to a national class", tested("F60"), kSeparating, "'F60' is not a class of EN 13501-2"},
    {"tested class missing", drop_property("Panel_FireEvidence.Resistance"), kSeparating, "no tested class is given"},
    {"tested from outside alone", tested("EI 60 (o->i)"), kSeparating, "direction of fire"},
    {"tested for less from outside, both sides asked",
     both(tested("EI 60 (i->o); EI 30 (o->i)"), required("EI 60 (i<->o)")), kSeparating,
     "shorter than the class required"},
    {"both sides asked, tested from inside", both(tested("EI 60 (i->o)"), required("EI 60 (i<->o)")), kSeparating,
     "direction of fire"},
    {"declared for twice the time tested", set_property("Pset_WallCommon.FireRating", "EI 120"), kSeparating,
     "'EI 120' is declared"},
    {"declared for a quarter of the time required", set_property("Pset_WallCommon.FireRating", "EI 15"), kSeparating,
     "'EI 15' is declared"},
    {"tested on walls of 3 m", set_property("Panel_FireEvidence.MaxHeight", "3000"), kSeparating,
     "height of the panel is outside the field of application"},
    {"tested height missing", drop_property("Panel_FireEvidence.MaxHeight"), kSeparating,
     "height: the field of application is not given"},
    {"tested width in m", scale_property("Panel_FireEvidence.MaxWidth", 0.001), "refused", "cannot be"},
    {"tested width ten times too large", scale_property("Panel_FireEvidence.MaxWidth", 10.0), kSeparating,
     "outside of the usual"},
    {"tested width missing", drop_property("Panel_FireEvidence.MaxWidth"), kSeparating,
     "width: the field of application is not given"},
    {"tested with deeper studs", set_property("Panel_FireEvidence.MinStudDepth", "245"), kSeparating,
     "depth of the shallowest stud"},
    {"tested depth of studs missing", drop_property("Panel_FireEvidence.MinStudDepth"), kSeparating,
     "depth of the shallowest stud: the field of application is not given"},
    {"tested with studs closer together", set_property("Panel_FireEvidence.MaxStudSpacing", "400"), kSeparating,
     "widest spacing of studs"},
    {"tested with fasteners closer together", set_property("Panel_FireEvidence.MaxFixingSpacing", "100"), kSeparating,
     "widest spacing of the boards' fasteners"},
    {"tested spacing of fasteners missing", drop_property("Panel_FireEvidence.MaxFixingSpacing"), kSeparating,
     "the field of application is not given (Panel_FireEvidence.MaxFixingSpacing)"},
    {"spacing of fasteners missing", drop_property("Panel_Fastener.Spacing"), kSeparating,
     "spacing of the fasteners of"},
    {"fasteners twice as far apart", scale_property("Panel_Fastener.Spacing", 2.0), kSeparating,
     "widest spacing of the boards' fasteners"},
    {"tested with small windows", set_property("Panel_FireEvidence.MaxOpeningWidth", "600"), kSeparating,
     "width of the widest opening"},
    {"one board as the whole build-up tested",
     set_property("Panel_FireEvidence.BuildUp", "Oriented strand board OSB/3 12 (620 kg/m3)"), kSeparating,
     "do not hold the framing"},
    {"two classes shown for one side", set_property("Panel_FireEvidence.Resistance", "EI 60 (i<->o); EI 30 (i->o)"),
     kSeparating, "the tested class is shorter than the class required"},
    {"build-up tested missing", drop_property("Panel_FireEvidence.BuildUp"), kSeparating,
     "the build-up tested is not given"},
    {"build-up tested in words", build_up("as drawn"), kSeparating, "the build-up tested cannot be read"},
    {"tested with thicker wool",
     build_up("Oriented strand board OSB/3 12 (620 kg/m3); Stone wool slab 240 (40 kg/m3); "
              "Gypsum sheathing board type EH 12.5 (800 kg/m3)"),
     kSeparating, "no layer 'Stone wool slab' of the thickness tested"},
    {"tested with denser wool",
     build_up("Oriented strand board OSB/3 12 (620 kg/m3); Stone wool slab 140 (60 kg/m3); "
              "Gypsum sheathing board type EH 12.5 (800 kg/m3)"),
     kSeparating, "and the test had 60 kg/m³"},
    {"density tested missing",
     build_up("Oriented strand board OSB/3 12 (620 kg/m3); Stone wool slab 140; "
              "Gypsum sheathing board type EH 12.5 (800 kg/m3)"),
     kSeparating, "the density tested of 'Stone wool slab' is not given"},
    {"tested with the boards the other way round",
     build_up("Gypsum sheathing board type EH 12.5 (800 kg/m3); Stone wool slab 140 (40 kg/m3); "
              "Oriented strand board OSB/3 12 (620 kg/m3)"),
     kSeparating, "in its place"},
    {"tested with glass wool",
     build_up("Oriented strand board OSB/3 12 (620 kg/m3); Glass wool slab 140 (40 kg/m3); "
              "Gypsum sheathing board type EH 12.5 (800 kg/m3)"),
     kSeparating, "no layer 'Glass wool slab'"},
    {"wool half as heavy as tested", scale_of_material(kFireWool, "Pset_MaterialCommon.MassDensity", 0.5), kSeparating,
     "has 20 kg/m³"},
    {"a report that covers no added layers", set_property("Panel_FireEvidence.AddedLayers", "none"), kSeparating,
     "was not tested, and the report covers added layers of 'none'"},
    {"added layers that the report says nothing of", drop_property("Panel_FireEvidence.AddedLayers"), kSeparating,
     "whether the report covers layers beyond those tested is not given"},
    {"a lining of class F that was not tested", set_of_material(kLining, "Panel_Fire.ReactionToFire", "F"), kSeparating,
     "was not tested"},
    {"all boards gone", drop_parts("IfcPlate", ""), kSeparating, "joints of"},
}};

// What is asked for.
const RegisterWrongCases kRequirements{{
    {"a quarter of an hour asked for where there are no tables", both(required("EI 15"), in_scotland()), kSeparating,
     "is checked by no table"},
    {"a class asked for where there are no tables", in_scotland(), kRequirement, "in Scotland"},
    {"no jurisdiction", drop_setting("project.jurisdiction"), kRequirement, "setting project.jurisdiction"},
    {"no use", drop_setting("project.use"), kRequirement, "setting project.use"},
    {"a use that the tables do not have", set_setting("project.use", "castle"), "refused",
     "'castle' is not allowed here"},
    {"half an hour asked for where the tables ask for one", required("EI 30"), kRequirement, "below the EI 15 / E 60"},
    {"a class asked for in words", required("one hour"), kRequirement, "is not a class of EN 13501-2"},
    {"fire from outside asked for where the tables ask for inside", required("EI 60 (o->i)"), kRequirement,
     "below the EI 15 / E 60"},
    {"a fire test as fire strategy",
     both(in_scotland(), add_property("Panel_FireRequirement", "DocumentId", "IfcIdentifier", "FT-101")), kRequirement,
     "is of the kind 'fire test report'"},
    {"delivery notes as fire strategy",
     both(in_scotland(), add_property("Panel_FireRequirement", "DocumentId", "IfcIdentifier", "DN-451")), kRequirement,
     "is of the kind 'other'; needed: fire strategy"},
    {"half a metre from the boundary, tested from no stated side", set_setting("building.boundary_distance_m", 0.5),
     kSeparating, "direction of fire"},
    {"the panel half a metre from the boundary, the building six",
     add_property("Panel_FireRequirement", "BoundaryDistance", "IfcNonNegativeLengthMeasure", "500"), kSeparating,
     "direction of fire"},
    {"not known whether it bears load", drop_property("Pset_WallCommon.LoadBearing"), kBearing,
     "Pset_WallCommon.LoadBearing"},
    {"load-bearing where no R is asked for", set_property("Pset_WallCommon.LoadBearing", "true"), kBearing,
     "states no R"},
    {"loads on panels that bear none", loads_of_all(), kBearing, "one of them is wrong"},
    {"loads on panels that bear none, for the class asked", loads_of_all(), kRequirement, "LoadBearing is no"},
}};

// What burns.
const RegisterWrongCases kReactions{{
    {"a class of wool missing", drop_property("Panel_Fire.ReactionToFire"), kSurfaces,
     "a class is needed of every layer"},
    {"a national class of a surface", set_of_material(kLining, "Panel_Fire.ReactionToFire", "Class 0"), kSurfaces,
     "is not a class of EN 13501-1"},
    {"a board of wood that does not burn",
     set_of_material("Oriented strand board OSB/3", "Panel_Fire.ReactionToFire", "A1"), kSurfaces,
     "its IfcMaterial.Category is 'wood'"},
    {"a film that does not burn",
     set_of_material("Polyethylene vapour control layer", "Panel_Fire.ReactionToFire", "A2-s1,d0"), kSurfaces,
     "its IfcMaterial.Category is 'plastic'"},
    {"the leaf by others without a class", drop_property("Panel_Construction.OuterLeafReactionToFire"), kOuterWall,
     "class of the outer leaf over it"},
    {"the leaf by others of a class that is none", set_property("Panel_Construction.OuterLeafReactionToFire", "A0"),
     kOuterWall, "is not a class of EN 13501-1"},
    {"the leaf by others of class F", set_property("Panel_Construction.OuterLeafReactionToFire", "F"), kOuterWall,
     "not of the class required"},
    {"not known whether it is external", drop_property("Pset_WallCommon.IsExternal"), kOuterWall,
     "Pset_WallCommon.IsExternal"},
    {"an external wall said to be inside", said_inside(), kOuterWall, "IsExternal is no, and"},
    {"a wall said to be inside, and its windows too, under an outer leaf",
     both(said_inside(), set_property("Pset_WindowCommon.IsExternal", "false")), kOuterWall,
     "an outer leaf stands over it"},
    {"an external wall where there is no rule", in_scotland(), kOuterWall, "the tables hold no rule"},
    {"a class for the building, and the panel nearer to the boundary",
     both(both(in_scotland(), set_setting("fire.external_wall_class", "B-s3,d2")),
          add_property("Panel_FireRequirement", "BoundaryDistance", "IfcNonNegativeLengthMeasure", "500")),
     kOuterWall, "the panel stands at 0.5 m"},
    {"ventilated panels without a cavity barrier", drop_parts("IfcDiscreteAccessory", "Cavity barrier"), kBarriers,
     "are needed: foot of the cavity"},
    {"one cavity barrier gone", drop_first_part("IfcDiscreteAccessory", "Cavity barrier"), kBarriers,
     "of them are not in the export"},
    {"a cavity barrier inside the cassette", move_first_part("IfcDiscreteAccessory", "Cavity barrier", 1, -150.0),
     kBarriers, "of them are not in the export"},
    {"a cavity barrier a metre to the side", move_first_part("IfcDiscreteAccessory", "Cavity barrier", 0, 1000.0),
     kBarriers, "of them are not in the export"},
    {"not known which face is outside", drop_property("Panel_Construction.FirstLayerFace"), kBarriers,
     "which face is outside is not known"},
    {"materials without a density", drop_property("Pset_MaterialCommon.MassDensity"), "fire.during_construction",
     "Pset_MaterialCommon.MassDensity"},
}};

}  // namespace

}  // namespace panel_dossier::consistency

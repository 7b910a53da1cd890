// Libraries that would make something pass that must not.
#include "tests/consistency/wrong_project.h"

namespace panel_dossier::consistency {

namespace {

constexpr const char* kConductivity = "Pset_MaterialThermal.ThermalConductivity";
constexpr const char* kConductivityColumns = "product,material name,source,day,Thermal conductivity [W/(m·K)]\n";

Edit wool_in_library(const std::string& row) {
  return add_library("materials.csv", kConductivityColumns + row + "\n");
}

const RegisterWrongCases kLibraryCases{{
    {"a library's wool is better than the export's",
     wool_in_library("Stone wool slab,Stone wool slab,sheet,2026-03-01,0.032"), "thermal.u_value",
     "0.032 W/(m·K) in materials.csv row 2"},
    {"a library's wool is ten times better than any",
     both(drop_property(kConductivity), wool_in_library("Stone wool slab,Stone wool slab,sheet,2026-03-01,0.0034")),
     "thermal.u_value", "outside of the usual 0.018 to 0.08"},
    {"a library's wool is whatever there is",
     both(drop_property(kConductivity), add_library("materials.csv",
                                                    "product,name pattern,source,day,Thermal conductivity [W/(m·K)]\n"
                                                    "Another slab,*,sheet,2026-03-01,0.034\n")),
     "refused", "the pattern of any name"},
    {"a library that calls the board what nobody knows",
     add_library("materials.csv",
                 "product,material name,source,day,category\nStone wool slab,Stone wool slab,sheet,2026-03-01,wodo\n"),
     "refused", "is no kind of material"},
    {"a library whose wool is wood",
     add_library("materials.csv",
                 "product,material name,source,day,category\nStone wool slab,Stone wool slab,sheet,2026-03-01,wood\n"),
     "thermal.u_value", "category of 'Stone wool slab' is 'insulation' in the export and 'wood'"},
    {"a library of tomorrow", wool_in_library("Stone wool slab,Stone wool slab,sheet,2999-01-01,0.034"), "refused",
     "lies in the future"},
    {"a library's wool twice",
     both(drop_property(kConductivity),
          add_library("materials.csv",
                      "product,name pattern,source,day,Thermal conductivity [W/(m·K)]\n"
                      "Stone wool slab,Stone wool*,sheet,2026-03-01,0.036\nOther,*slab,sheet,2026-03-01,0.032\n")),
     "refused", "as materials.csv row 2 does"},
    {"a library's loops carry more than the export's",
     add_library("lifting.csv",
                 "product,name pattern,source,day,Working load limit [kN]\nLoop,Lifting loop ?,sheet,2026-03-01,45\n"),
     "structural.lifting", "in lifting.csv row 2"},
    {"a library's loops in the unit of mass",
     add_library("lifting.csv",
                 "product,name pattern,source,day,Working load limit [kg]\nLoop,Lifting loop ?,sheet,2026-03-01,450\n"),
     "refused", "which is none of N"},
    {"a library's timber is of another class",
     add_library("materials.csv",
                 "product,material name,source,day,Strength class\nStructural softwood C24,Structural softwood "
                 "C24,sheet,2026-03-01,C30\n"),
     "structural.stud_bending", "'C30' in materials.csv row 2"},
    {"a library's window is better than the export's",
     add_library("windows.csv",
                 "product,name pattern,source,day,Window U-value [W/(m²·K)]\nWindow,*W*,sheet,2026-03-01,0.6\n"),
     "thermal.heat_loss", "in windows.csv row 2"},
}};

}  // namespace

}  // namespace panel_dossier::consistency

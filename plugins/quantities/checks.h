// The checks of the discipline, one function each. Lengths in m, masses in kg, forces in kN, times in h.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::quantities {

/// `quantities.area`: net area of the face in m², every opening deducted in full.
Finding area(const Panel& panel, const Settings& settings);

/// `quantities.mass`: mass as lifted in kg, with a table by material.
Finding mass(const Panel& panel, const Project& project);

/// `quantities.centre_of_gravity`: signed distance in m of the centre of gravity from the middle of the panel's width,
/// positive towards +x of the panel's frame; x, y and z of the centre are steps.
Finding centre_of_gravity(const Panel& panel, const Project& project);

/// `quantities.cutting_list`: number of pieces to cut, with the list as the first table.
Finding cutting_list(const Panel& panel, const Project& project, const Settings& settings);

/// `quantities.fixings`: number of fasteners, with a table by type.
Finding fixings(const Panel& panel, const Project& project);

/// `quantities.loads`: self-weight of the panel in kN; the weight per metre of support is a step.
Finding loads(const Panel& panel, const Project& project);

/// `quantities.erection_time`: hours of one crew, from the gross area and setting
/// `quantities.crew_area_rate_m2_per_h`.
Finding erection_time(const Panel& panel, const Settings& settings);

/// `quantities.stock_yield`: share in % of the bought stock length that ends up in framing members of the project.
Finding stock_yield(const Project& project, const Settings& settings);

/// `quantities.sheet_yield`: share in % of the bought area of sheets and slabs that ends up in the panels.
Finding sheet_yield(const Project& project, const Settings& settings);

/// `quantities.take_off`: volume in m³ of the materials of the panel, with net and gross measures of each in a table.
Finding take_off_measures(const Panel& panel, const Project& project, const Settings& settings);

/// `quantities.assembly`: number of pieces to put together, with the order of work and its hold points.
Finding assembly(const Panel& panel, const Project& project, const Settings& settings);

/// `quantities.as_built_size`: largest deviation in m of the sizes measured in the workshop from their targets, at most
/// setting `quantities.size_tolerance_m`.
Finding as_built_size(const Panel& panel, const Settings& settings);

}  // namespace panel_dossier::quantities

// U-values of the windows and doors of a panel.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

struct WindowParts {
  double glass_area_m2 = 0.0;      ///< A_g, the smaller of the visible areas of both sides
  double glass_u_w_per_m2k = 0.0;  ///< U_g
  double frame_area_m2 = 0.0;      ///< A_f, projected
  double frame_u_w_per_m2k = 0.0;  ///< U_f
  double edge_length_m = 0.0;      ///< l_g, visible perimeter of the glazing
  double edge_psi_w_per_mk = 0.0;  ///< Ψ_g of glazing, spacer and frame together

  double area_m2() const { return glass_area_m2 + frame_area_m2; }
};

/// Areas and edge of a window with one pane and a frame of one visible width all round; transmittances stay 0.
/// `frame_width_m` above 0 and under half of both sides.
WindowParts single_pane_window(double width_m, double height_m, double frame_width_m);

/// U_w in W/(m²·K) (EN ISO 10077-1:2017, 6.4.1); the area of `parts` is above 0.
double window_transmittance(const WindowParts& parts);

/// Name of the filling, else of the opening.
std::string filling_label(const Opening& opening);

struct FillingTransmittance {
  double value_w_per_m2k = 0.0;
  std::string symbol;  ///< of it in the finding
};

/// U of what fills one of the panel's openings: from Panel_Window.GlassTransmittance, FrameTransmittance,
/// EdgeTransmittance and FrameWidth as soon as one of them is there (EN ISO 10077-1:2017), else the declared
/// ThermalTransmittance. None when something is missing; that, and a declared value that lies more than 0.1 W/(m²·K)
/// off the calculated one in every size in which it may have been declared, `builder` then knows.
std::optional<FillingTransmittance> filling_transmittance(const Panel& panel, std::size_t opening,
                                                          FindingBuilder& builder);

extern const CheckDeclaration kWindowUValueCheck;
extern const CheckDeclaration kDoorUValueCheck;

/// `thermal.window_u_value`: the highest U-value of the panel's windows against what the rule of the jurisdiction asks
/// of a single one; information where it limits the average alone. Does not apply to a panel without windows.
CheckOutcome check_windows(const Panel& panel, const Settings& settings, const Tables& tables);

/// `thermal.door_u_value`: likewise of the panel's doors.
CheckOutcome check_doors(const Panel& panel, const Settings& settings, const Tables& tables);

/// `thermal.window_u_value` of the project: the average of windows and doors weighted by area against the limit of the
/// jurisdiction where it is put on the average; `panels` holds the findings of their panels.
CheckOutcome average_fillings(const Project& project, const std::vector<PanelFindings>& panels,
                              const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::thermal

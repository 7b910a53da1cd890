#include "plugins/quantities/delivery/packing.h"

#include <algorithm>
#include <cmath>

#include "core/api/support/words.h"
#include "plugins/quantities/cutting/bar_packing.h"

namespace panel_dossier::quantities {

namespace {

constexpr double kMilligramsInKilogram = 1.0e6;
/// A milligram: far above the rounding of a lever of doubles, far below any weighbridge.
constexpr double kRounding_kg = 1.0e-6;

/// What a setting is called in the finding.
struct Called {
  const char* name;
  const char* symbol;
  const char* unit;
};

double read(FindingBuilder& finding, const Settings& settings, const Called& as, const std::string& key) {
  const std::string missing = "setting '" + key + "' is missing or not above 0";
  return finding.positive(as.name, as.symbol, as.unit, settings.number(key), missing).value_or(0.0);
}

double read_from_zero(FindingBuilder& finding, const Settings& settings, const Called& as, const std::string& key) {
  const std::string missing = "setting '" + key + "' is missing; 0 when there is none";
  const double value = finding.number(as.name, as.symbol, as.unit, settings.number(key), missing).value_or(0.0);
  if (value < 0.0) finding.missing("setting '" + key + "' must not be negative");
  return value;
}

/// Absent is no limit.
std::optional<double> read_side_balance(FindingBuilder& finding, const Settings& settings) {
  const std::string key = "quantities.transport.side_balance_limit";
  if (settings.all().count(key) == 0) return std::nullopt;
  const std::string wrong = "setting '" + key + "' must be a share above 0 and up to 1";
  const auto limit =
      finding.positive("difference between the sides of the bed, limit", "", "", settings.number(key), wrong);
  if (limit && *limit > 1.0) finding.missing(wrong);
  return limit;
}

void check_together(FindingBuilder& finding, const Vehicle& vehicle) {
  if (finding.incomplete()) return;
  if (vehicle.height <= vehicle.rack_base) {
    finding.missing("'structural.transport.overall_height_m' leaves no height above the deck and the rack");
  }
  if (vehicle.payload <= vehicle.racks) {
    finding.missing("'quantities.transport.rack_kg' leaves nothing of 'structural.transport.payload_kg'");
  }
  if (vehicle.axle_group_m <= vehicle.kingpin_m) {
    finding.missing("'quantities.transport.axle_group_m' must be greater than 'quantities.transport.kingpin_m'");
  }
}

}  // namespace

Milligrams milligrams(double value_kg) {
  return std::llround(value_kg * kMilligramsInKilogram);
}

Vehicle read_vehicle(FindingBuilder& finding, const Settings& settings) {
  const std::string shared = "structural.transport.";
  const std::string own = "quantities.transport.";
  const auto length = [&](const char* name, const std::string& key) {
    return read(finding, settings, {name, "", "m"}, key);
  };
  Vehicle vehicle;
  vehicle.bed_length = micrometres(length("length of the load bed", shared + "bed_length_m"));
  vehicle.bed_width = micrometres(length("width of the load bed", own + "bed_width_m"));
  const double deck_m = length("height of the deck above the road", shared + "deck_height_m");
  vehicle.height = micrometres(length("height that the route allows", shared + "overall_height_m") - deck_m);
  vehicle.rack_base = micrometres(
      read_from_zero(finding, settings, {"height of the rack under the panels", "", "m"}, own + "rack_base_m"));
  vehicle.spacer =
      micrometres(read_from_zero(finding, settings, {"clear distance between panels", "", "m"}, own + "spacer_m"));
  vehicle.payload = milligrams(read(finding, settings, {"payload of the vehicle", "P", "kg"}, shared + "payload_kg"));
  vehicle.racks =
      milligrams(read_from_zero(finding, settings, {"mass of the racks on a vehicle", "m_r", "kg"}, own + "rack_kg"));
  vehicle.kingpin_m = length("kingpin behind the headboard", own + "kingpin_m");
  vehicle.axle_group_m = length("middle of the axle group behind the headboard", own + "axle_group_m");
  vehicle.kingpin_limit_kg =
      read(finding, settings, {"load that the kingpin may take", "", "kg"}, own + "kingpin_limit_kg");
  vehicle.axle_group_limit_kg =
      read(finding, settings, {"load that the axle group may take", "", "kg"}, own + "axle_group_limit_kg");
  vehicle.side_balance_limit = read_side_balance(finding, settings);
  const std::string upwards = own + "lifted_out_upwards";
  if (settings.all().count(upwards) > 0) {
    vehicle.lifted_out_upwards = finding
                                     .logical("panels are lifted out of their racks upwards", settings.logical(upwards),
                                              "setting '" + upwards + "' is neither true nor false")
                                     .value_or(false);
  }
  check_together(finding, vehicle);
  return vehicle;
}

AxleShares axle_shares(double mass_kg, double centre_m, const Vehicle& vehicle) {
  const double kingpin_kg = mass_kg * (vehicle.axle_group_m - centre_m) / (vehicle.axle_group_m - vehicle.kingpin_m);
  return {kingpin_kg, mass_kg - kingpin_kg};
}

bool carries(const AxleShares& shares, const Vehicle& vehicle) {
  return shares.kingpin_kg >= -kRounding_kg && shares.axle_group_kg >= -kRounding_kg &&
         shares.kingpin_kg <= vehicle.kingpin_limit_kg + kRounding_kg &&
         shares.axle_group_kg <= vehicle.axle_group_limit_kg + kRounding_kg;
}

namespace {

constexpr Micrometres kSetBackStep = 10'000;

using Items = std::vector<DeliveryItem>;

/// Where the rear end of the last panel stands, measured from the head of its row.
Micrometres rear_of_last(const Load& load, const Items& items) {
  return load.items.back().front + items[load.items.back().item].length;
}

/// Puts the item behind the last one; false when the row or the width has no room.
bool continue_row(Load& load, std::size_t index, const Items& items, const Vehicle& vehicle) {
  if (load.items.empty()) return false;
  const DeliveryItem& item = items[index];
  const Micrometres front = rear_of_last(load, items) + vehicle.spacer;
  if (front + item.length > vehicle.bed_length) return false;
  load.rows.back() = std::max(load.rows.back(), item.thickness);
  load.items.push_back({index, load.rows.size() - 1, front});
  return rows_width(load, vehicle) <= vehicle.bed_width;
}

bool begin_row(Load& load, std::size_t index, const Items& items, const Vehicle& vehicle) {
  load.rows.push_back(items[index].thickness);
  load.items.push_back({index, load.rows.size() - 1, 0});
  return items[index].length <= vehicle.bed_length && rows_width(load, vehicle) <= vehicle.bed_width;
}

void weigh(Load& load, const Items& items, const Vehicle& vehicle) {
  const double racks_kg = kilograms(vehicle.racks);
  double mass_kg = racks_kg;
  double moment_kgm = racks_kg * metres(vehicle.bed_length) / 2.0;
  load.mass = 0;
  for (const PlacedItem& placed : load.items) {
    const DeliveryItem& item = items[placed.item];
    load.mass += item.mass;
    mass_kg += kilograms(item.mass);
    moment_kgm += kilograms(item.mass) * metres(load.set_back + placed.front + item.centre);
  }
  load.centre_m = moment_kgm / mass_kg;
  load.shares = axle_shares(mass_kg, load.centre_m, vehicle);
}

/// Sets the rows back where the kingpin needs it; false when the vehicle cannot carry the load.
bool balance(Load& load, const Items& items, const Vehicle& vehicle) {
  load.set_back = 0;
  weigh(load, items, vehicle);
  if (load.mass + vehicle.racks > vehicle.payload) return false;
  const double over_kg = load.shares.kingpin_kg - vehicle.kingpin_limit_kg;
  if (over_kg > 0.0) {
    const double needed_m = over_kg * (vehicle.axle_group_m - vehicle.kingpin_m) / kilograms(load.mass);
    load.set_back = kSetBackStep * static_cast<Micrometres>(std::ceil(needed_m / metres(kSetBackStep)));
    weigh(load, items, vehicle);
  }
  const bool inside = std::all_of(load.items.begin(), load.items.end(), [&](const PlacedItem& placed) {
    return load.set_back + placed.front + items[placed.item].length <= vehicle.bed_length;
  });
  return inside && carries(load.shares, vehicle);
}

/// First-fit of the items in the given order into rows of the bed's length; each row in the order of erection, and
/// the row with the panel needed first at the unloading side.
std::vector<std::vector<std::size_t>> rows_in_order(const std::vector<std::size_t>& order, const Items& items,
                                                    const Vehicle& vehicle) {
  std::vector<std::vector<std::size_t>> rows;
  std::vector<Micrometres> used;
  for (const std::size_t item : order) {
    const Micrometres length = items[item].length + vehicle.spacer;
    const auto open = std::find_if(used.begin(), used.end(), [&](Micrometres taken) {
      return taken + length <= vehicle.bed_length + vehicle.spacer;
    });
    const auto row = static_cast<std::size_t>(open - used.begin());
    if (row == rows.size()) {
      rows.emplace_back();
      used.push_back(0);
    }
    rows[row].push_back(item);
    used[row] += length;
  }
  for (std::vector<std::size_t>& row : rows) std::sort(row.begin(), row.end());
  std::sort(rows.begin(), rows.end());
  return rows;
}

Load load_of(const std::vector<std::vector<std::size_t>>& rows, const Items& items, const Vehicle& vehicle) {
  Load load;
  load.rearranged = true;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    Micrometres front = 0;
    Micrometres thickest = 0;
    for (const std::size_t item : rows[row]) {
      load.items.push_back({item, row, front});
      front += items[item].length + vehicle.spacer;
      thickest = std::max(thickest, items[item].thickness);
    }
    load.rows.push_back(thickest);
  }
  std::sort(load.items.begin(), load.items.end(),
            [](const PlacedItem& a, const PlacedItem& b) { return a.item < b.item; });
  return load;
}

/// The load's items and the next one in rows anew; none when that has no room either, or must not be.
std::optional<Load> rearranged(const Load& load, std::size_t index, const Items& items, const Vehicle& vehicle) {
  if (!vehicle.lifted_out_upwards || load.items.empty()) return std::nullopt;
  std::vector<std::size_t> order;
  for (std::size_t item = load.items.front().item; item <= index; ++item) order.push_back(item);
  const auto by_length = [&](std::size_t a, std::size_t b) { return items[a].length > items[b].length; };
  const auto by_thickness = [&](std::size_t a, std::size_t b) { return items[a].thickness > items[b].thickness; };
  std::stable_sort(order.begin(), order.end(), by_length);
  Load longest_first = load_of(rows_in_order(order, items, vehicle), items, vehicle);
  if (rows_width(longest_first, vehicle) <= vehicle.bed_width && balance(longest_first, items, vehicle)) {
    return longest_first;
  }
  std::stable_sort(order.begin(), order.end(), by_thickness);
  Load thickest_first = load_of(rows_in_order(order, items, vehicle), items, vehicle);
  if (rows_width(thickest_first, vehicle) <= vehicle.bed_width && balance(thickest_first, items, vehicle)) {
    return thickest_first;
  }
  return std::nullopt;
}

/// The load with the item on it; none when it has no room or overloads the vehicle.
std::optional<Load> with_item(const Load& load, std::size_t index, const Items& items, const Vehicle& vehicle) {
  if (load.rearranged) return rearranged(load, index, items, vehicle);
  Load continued = load;
  if (continue_row(continued, index, items, vehicle) && balance(continued, items, vehicle)) return continued;
  Load wider = load;
  if (begin_row(wider, index, items, vehicle) && balance(wider, items, vehicle)) return wider;
  return rearranged(load, index, items, vehicle);
}

std::string in_metres(Micrometres value) {
  return fixed_text(metres(value), 3) + " m";
}

std::size_t divided_up(double whole, double part) {
  // A hair less, so that rounding of the quotient cannot raise a whole number: a bound may only be too low.
  return static_cast<std::size_t>(std::ceil(whole / part * (1.0 - 1.0e-12)));
}

}  // namespace

DeliveryItem delivery_item(const Panel& panel, std::size_t index, double mass_kg, const Vec3& centre_m,
                           const Vehicle& vehicle) {
  const Micrometres width = micrometres(panel.width_m.value);
  const Micrometres height = micrometres(panel.height_m.value);
  const Micrometres thickness = micrometres(panel.thickness_m.value);
  const Micrometres from_left = micrometres(centre_m.x);
  const Micrometres from_inside = micrometres(centre_m.y);
  const Micrometres from_foot = micrometres(centre_m.z);
  DeliveryItem item;
  item.panel = index;
  item.thickness = thickness;
  item.mass = milligrams(mass_kg);
  item.on_foot = width >= height || height + vehicle.rack_base <= vehicle.height;
  item.length = item.on_foot ? width : height;
  item.height = item.on_foot ? height : width;
  item.centre = item.on_foot ? from_left : from_foot;
  item.rise = item.on_foot ? from_foot : from_left;
  item.across = item.on_foot ? from_inside : thickness - from_inside;
  return item;
}

std::vector<Load> pack_loads(const Items& items, const Vehicle& vehicle) {
  std::vector<Load> loads;
  Load open;
  for (std::size_t i = 0; i < items.size(); ++i) {
    std::optional<Load> next = with_item(open, i, items, vehicle);
    if (!next) {
      loads.push_back(std::move(open));
      next = with_item(Load{}, i, items, vehicle);
    }
    open = std::move(*next);
  }
  if (!open.items.empty()) loads.push_back(std::move(open));
  return loads;
}

std::vector<std::size_t> lifted_over_others(const Load& load, const Items& items) {
  std::vector<std::size_t> found;
  for (const PlacedItem& sooner : load.items) {
    const Micrometres rear = sooner.front + items[sooner.item].length;
    const bool behind = std::any_of(load.items.begin(), load.items.end(), [&](const PlacedItem& later) {
      return later.item > sooner.item && later.row < sooner.row && later.front < rear &&
             sooner.front < later.front + items[later.item].length;
    });
    if (behind) found.push_back(sooner.item);
  }
  return found;
}

Micrometres rows_width(const Load& load, const Vehicle& vehicle) {
  Micrometres width = -vehicle.spacer;
  for (const Micrometres thickness : load.rows) width += thickness + vehicle.spacer;
  return width;
}

std::string fits_alone(const DeliveryItem& item, const Vehicle& vehicle) {
  if (item.length > vehicle.bed_length) {
    return "is " + in_metres(item.length) + " long and the load bed " + in_metres(vehicle.bed_length) +
           ": choose a longer vehicle or divide the panel";
  }
  if (item.height + vehicle.rack_base > vehicle.height) {
    return "stands " + in_metres(item.height + vehicle.rack_base) + " high on its rack and the route leaves " +
           in_metres(vehicle.height) + " above the deck: choose a lower deck, another route or a smaller panel";
  }
  if (item.thickness > vehicle.bed_width) {
    return "is " + in_metres(item.thickness) + " thick and the load bed " + in_metres(vehicle.bed_width) + " wide";
  }
  if (item.mass + vehicle.racks > vehicle.payload) {
    return "weighs " + fixed_text(kilograms(item.mass), 0) + " kg and the vehicle carries " +
           fixed_text(kilograms(vehicle.payload - vehicle.racks), 0) + " kg beside its racks: choose another vehicle";
  }
  if (!with_item(Load{}, 0, {item}, vehicle)) {
    return "overloads the kingpin or the axle group wherever it stands: choose another vehicle";
  }
  return {};
}

std::size_t LoadBounds::least() const {
  return std::max({by_mass, by_floor, by_rows});
}

LoadBounds load_bounds(const Items& items, const Vehicle& vehicle) {
  if (items.empty()) return {};
  Milligrams mass = 0;
  double floor_m2 = 0.0;
  Micrometres thinnest = items.front().thickness;
  std::vector<Micrometres> lengths;
  for (const DeliveryItem& item : items) {
    mass += item.mass;
    floor_m2 += metres(item.length + vehicle.spacer) * metres(item.thickness + vehicle.spacer);
    thinnest = std::min(thinnest, item.thickness);
    lengths.push_back(item.length);
  }
  const auto rows_on_a_bed =
      static_cast<std::size_t>((vehicle.bed_width + vehicle.spacer) / (thinnest + vehicle.spacer));
  const std::size_t rows = fewest_bars(lengths, vehicle.bed_length, vehicle.spacer);
  return {
      divided_up(kilograms(mass), kilograms(vehicle.payload - vehicle.racks)),
      divided_up(floor_m2, metres(vehicle.bed_length + vehicle.spacer) * metres(vehicle.bed_width + vehicle.spacer)),
      (rows + rows_on_a_bed - 1) / rows_on_a_bed};
}

double LoadBalance::difference() const {
  return std::abs(kilograms(far_side - unloading_side)) / kilograms(far_side + unloading_side);
}

LoadBalance balance_of(const Load& load, const std::vector<DeliveryItem>& items, const Vehicle& vehicle) {
  const std::vector<Micrometres> edges = row_edges(load, vehicle);
  const Micrometres middle = vehicle.bed_width / 2;
  LoadBalance balance;
  double moment_across_kgm = 0.0;
  double moment_up_kgm = 0.0;
  for (const PlacedItem& placed : load.items) {
    const DeliveryItem& item = items[placed.item];
    const Micrometres edge = edges[placed.row];
    const Micrometres before_middle = std::clamp<Micrometres>(middle - edge, 0, item.thickness);
    const double share = metres(before_middle) / metres(item.thickness);
    const Milligrams near = std::llround(share * static_cast<double>(item.mass));
    balance.unloading_side += near;
    balance.far_side += item.mass - near;
    moment_across_kgm += kilograms(item.mass) * metres(edge + item.across - middle);
    moment_up_kgm += kilograms(item.mass) * metres(vehicle.rack_base + item.rise);
  }
  balance.offset_m = moment_across_kgm / kilograms(load.mass);
  balance.rise_m = moment_up_kgm / kilograms(load.mass);
  return balance;
}

std::vector<Micrometres> row_edges(const Load& load, const Vehicle& vehicle) {
  std::vector<Micrometres> edges;
  edges.reserve(load.rows.size());
  Micrometres at = (vehicle.bed_width - rows_width(load, vehicle)) / 2;
  for (const Micrometres thickness : load.rows) {
    edges.push_back(at);
    at += thickness + vehicle.spacer;
  }
  return edges;
}

}  // namespace panel_dossier::quantities

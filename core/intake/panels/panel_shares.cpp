#include "core/intake/panels/panel_shares.h"

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <future>
#include <iterator>
#include <span>
#include <thread>
#include <utility>

#include "core/intake/panels/panel_reader.h"
#include "core/intake/panels/placement.h"
#include "core/intake/panels/shape_reader.h"

namespace panel_dossier {

namespace {

// What many panels have in common is read once a share; with fewer the last one would be waited for.
constexpr std::size_t kPanelsOfShare = 64;
// Each holds what its share has in common.
constexpr std::size_t kMostThreads = 16;

struct Share {
  Reporter report;
  std::vector<Panel> panels;
  UnreadShapes unread;
  MaterialReader::PartNotes notes;
};

Share read_share(const PanelSources& sources, std::span<const PanelEntities> entities) {
  Share share{sources.context.report.for_the_same_file(), {}, {}, {}};
  const ReadContext context{sources.context.graph, share.report, sources.context.budget};
  UnitTable units(context, sources.units);
  PropertyReader properties(context, units, sources.expected);
  PlacementReader placements(context, units.length_factor());
  ShapeReader shapes(context, placements, units);
  MaterialReader materials(context, units, properties, sources.materials);
  PanelReaders readers{context, units, placements, shapes, properties, materials};
  PanelReader reader(readers, sources.spatial, sources.evidence, materials, sources.default_layer_order);
  share.panels.reserve(entities.size());
  for (const PanelEntities& one : entities) {
    if (auto panel = reader.read(one)) share.panels.push_back(std::move(*panel));
  }
  share.unread = shapes.unread();
  share.notes = materials.notes();
  return share;
}

}  // namespace

PanelShares read_in_shares(const PanelSources& sources, const std::vector<PanelEntities>& entities) {
  const std::size_t count = (entities.size() + kPanelsOfShare - 1) / kPanelsOfShare;
  std::vector<std::optional<Share>> shares(count);
  std::atomic<std::size_t> next = 0;
  const auto work = [&] {
    for (std::size_t i = next++; i < count; i = next++) {
      const std::span<const PanelEntities> rest = std::span(entities).subspan(i * kPanelsOfShare);
      shares[i] = read_share(sources, rest.first(std::min(rest.size(), kPanelsOfShare)));
    }
  };
  {
    std::vector<std::future<void>> others;
    const std::size_t threads = std::min<std::size_t>({std::thread::hardware_concurrency(), kMostThreads, count});
    // Where the system has no thread left, this one does it all.
    const auto how = std::launch::async | std::launch::deferred;
    for (std::size_t i = 1; i < threads; ++i) others.push_back(std::async(how, work));
    work();
    for (std::future<void>& other : others) other.get();
  }
  PanelShares all;
  all.panels.reserve(entities.size());
  for (std::optional<Share>& share : shares) {
    std::move(share->panels.begin(), share->panels.end(), std::back_inserter(all.panels));
    for (const auto& [kind, number] : share->unread) all.unread[kind] += number;
    sources.materials.add_notes(share->notes);
    if (!sources.context.budget.is_spent()) sources.context.report.take_over(std::move(share->report));
    share.reset();
  }
  return all;
}

}  // namespace panel_dossier

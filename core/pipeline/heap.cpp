#include "core/pipeline/heap.h"

#include <malloc.h>

namespace panel_dossier {

void keep_heap_small() {
  // The GNU C library raises its limit with each large piece that is freed, and then keeps the next ones.
  constexpr int kLargeBytes = 1 << 20;
  mallopt(M_MMAP_THRESHOLD, kLargeBytes);
}

void give_back_memory() {
  malloc_trim(0);
}

}  // namespace panel_dossier

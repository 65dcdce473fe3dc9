#include "core/media/file/presentation_order.h"

#include <algorithm>
#include <numeric>
#include <optional>

namespace core::media {

std::vector<std::size_t> presentationOrder(std::span<const OrderedPacket> packets,
                                           bool hasReordering) {
    std::vector<std::size_t> positions(packets.size());
    std::iota(positions.begin(), positions.end(), std::size_t{0});
    if (!hasReordering) {
        return positions;
    }
    const auto sortFrom = [&](std::size_t begin, std::size_t end) {
        std::stable_sort(
            positions.begin() + static_cast<std::ptrdiff_t>(begin),
            positions.begin() + static_cast<std::ptrdiff_t>(end),
            [&](std::size_t a, std::size_t b) { return packets[a].order < packets[b].order; });
    };
    std::size_t begin = 0;
    std::int64_t highest = 0;
    for (std::size_t i = 0; i < packets.size(); ++i) {
        if (i > begin && packets[i].isKey && packets[i].order <= highest) {
            sortFrom(begin, i);
            begin = i;
        }
        highest = i == begin ? packets[i].order : std::max(highest, packets[i].order);
    }
    sortFrom(begin, packets.size());
    return positions;
}

std::vector<std::size_t> presentationOrder(std::span<const VopType> types) {
    std::vector<std::size_t> positions;
    positions.reserve(types.size());
    std::optional<std::size_t> waiting;
    for (std::size_t i = 0; i < types.size(); ++i) {
        if (types[i] == VopType::Bidirectional) {
            positions.push_back(i);
            continue;
        }
        if (waiting) {
            positions.push_back(*waiting);
        }
        waiting = i;
    }
    if (waiting) {
        positions.push_back(*waiting);
    }
    return positions;
}

}  // namespace core::media

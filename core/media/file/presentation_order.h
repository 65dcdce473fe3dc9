#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace core::media {

/// One packet as the order of showing depends on it.
struct OrderedPacket {
    std::int64_t order{};  ///< presentation time or picture order count
    bool isKey{};
};

/// Positions of the packets in the order in which a decoder shows them. The input is in decoding
/// order. Pictures are sorted by `order` within a sequence; a key packet whose order is not beyond
/// all before it begins a new sequence (a picture order count that starts again, a time stamp that
/// goes backwards). Without reordering the order of decoding is the order of showing.
std::vector<std::size_t> presentationOrder(std::span<const OrderedPacket> packets,
                                           bool hasReordering);

/// Picture types of MPEG-4 part 2 (ISO/IEC 14496-2, vop_coding_type).
enum class VopType { Intra, Predicted, Bidirectional, Other };

/// The same for MPEG-4 part 2, which has no order count: an intra or predicted picture is shown
/// after the bidirectional pictures that follow it in decoding order.
std::vector<std::size_t> presentationOrder(std::span<const VopType> types);

}  // namespace core::media

#pragma once

#include <QString>
#include <map>
#include <vector>

#include "core/doubts/doubt.h"
#include "core/project/snapshot.h"
#include "ui/doubts/rate_scale.h"

namespace ui::doubts {

/// The rates that count, cell by cell; shots that are left out because of their clip's clock are
/// not among them. Immutable value.
class CellRates {
public:
    /// only: of this cell alone, for who asks for no other.
    explicit CellRates(const core::project::Snapshot& snapshot,
                       std::optional<core::project::CellId> only = {});

    /// Of all kept shots of the cell but this one; in rpm, ascending. Cost: shots of the cell.
    [[nodiscard]] std::vector<double> of(core::project::CellId cell,
                                         std::optional<core::project::ShotId> but) const;

private:
    struct Kept {
        core::project::ShotId shot;
        double rpm{};
    };
    std::map<core::project::CellId, std::vector<Kept>> m_kept;
};

/// The worst reason in a few words, as the head of what follows: "Repeated reading differs".
[[nodiscard]] QString reasonText(const core::doubts::Doubted& item);
/// The numbers behind the worst reason: "513 or 2051 rpm". Empty where there are none.
[[nodiscard]] QString numbersText(const core::project::Snapshot& snapshot, const CellRates& rates,
                                  const core::doubts::Doubted& item);
/// The readings of the shot and what else speaks for another rate, and the cell around it.
[[nodiscard]] RateScale::Content scaleOf(const core::project::Snapshot& snapshot,
                                         const CellRates& rates, const core::doubts::Doubted& item);

}  // namespace ui::doubts

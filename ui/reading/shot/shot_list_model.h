#pragma once

#include <QAbstractListModel>
#include <optional>
#include <vector>

#include "core/project/store.h"

namespace ui::reading {

/// The shots of the project in the order of the film, or in an order that tells nothing while names
/// are hidden (core/project/shuffled_order.h); all or only those of one kind. Row data: the text of
/// the row, and the roles below.
class ShotListModel : public QAbstractListModel {
    Q_OBJECT

public:
    enum class Filter { All, Unread, Doubtful };
    /// CellRole: whose it is, or its state in words while names are hidden.
    enum Role { StateRole = Qt::UserRole, NumberRole, CellRole };

    explicit ShotListModel(const core::project::Store& store, QObject* parent = nullptr);

    void setFilter(Filter filter);
    [[nodiscard]] Filter filter() const noexcept { return m_filter; }
    void setNamesHidden(bool hidden);
    /// Reads the store again after this change.
    void update(const core::project::Store::Change& change);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] core::project::ShotId shotAt(int row) const;
    /// -1 when the filter hides it.
    [[nodiscard]] int rowOf(core::project::ShotId shot) const;
    /// The shot after (step 1) or before (step -1) this one among those that are shown, also when
    /// it is hidden itself. Absent at the end.
    [[nodiscard]] std::optional<core::project::ShotId> neighbour(core::project::ShotId shot,
                                                                 int step) const;
    /// The next shot after this one of a kind, shown or not, past the last one from the first.
    /// Absent when there is no other.
    [[nodiscard]] std::optional<core::project::ShotId> nextOf(Filter kind,
                                                              core::project::ShotId shot) const;

private:
    void rebuild();
    [[nodiscard]] QString cellOf(const core::project::Shot& shot) const;
    [[nodiscard]] QString toolTipOf(const core::project::Shot& shot) const;
    [[nodiscard]] static bool passes(Filter filter, const core::project::Shot& shot);

    const core::project::Store& m_store;
    core::project::SnapshotPtr m_snapshot;
    Filter m_filter{Filter::All};
    bool m_areNamesHidden{false};
    std::vector<core::project::ShotId> m_order;  ///< all shots
    std::vector<std::size_t> m_rows;             ///< positions in m_order that are shown
};

}  // namespace ui::reading

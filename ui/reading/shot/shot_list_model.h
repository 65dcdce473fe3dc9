#pragma once

#include <QAbstractListModel>
#include <map>
#include <optional>
#include <set>
#include <vector>

#include "core/project/store.h"

namespace ui::reading {

class ShotFacts;

/// The shots of the project in the order of the film, or in an order that tells nothing while names
/// are hidden (core/project/shuffled_order.h); all or only those that are asked for. Row data: the
/// text of the row, and the roles below.
class ShotListModel : public QAbstractListModel {
    Q_OBJECT

public:
    /// InDoubt: with a doubt that nobody has settled (core/doubts).
    enum class Filter { All, Unread, Kept, Doubtful, SetAside, InDoubt };
    enum class Sort { Film, Spin, Uncertainty, State };
    /// What else a shot has to be; nothing: any. Left out while names are hidden, but for the
    /// number of a shot.
    struct Narrowing {
        std::optional<core::project::ImplementId> implement{};
        std::optional<core::project::HitterId> hitter{};
        std::optional<core::project::ClipId> clip{};
        QString words{};  ///< each is in the number or in a name
        bool operator==(const Narrowing&) const = default;
    };
    /// CellRole: whose it is, or its state in words while names are hidden. RateRole: "2368.3", and
    /// SigmaRole "± 4.1": of the kept reading, else what the pictures say; empty where neither is
    /// known. IsKeptRole: whether it is kept. BallRole: a picture of the ball, or none.
    enum Role {
        StateRole = Qt::UserRole,
        NumberRole,
        CellRole,
        RateRole,
        SigmaRole,
        IsKeptRole,
        BallRole
    };

    explicit ShotListModel(const core::project::Store& store, QObject* parent = nullptr);

    /// What is looked up beside the project; must outlive the model.
    void setFacts(ShotFacts& facts);
    void setFilter(Filter filter);
    [[nodiscard]] Filter filter() const noexcept { return m_filter; }
    void setNarrowing(const Narrowing& narrowing);
    [[nodiscard]] const Narrowing& narrowing() const noexcept { return m_narrowing; }
    void setSort(Sort sort);
    [[nodiscard]] Sort sortedBy() const noexcept { return m_sort; }
    void setNamesHidden(bool hidden);
    [[nodiscard]] bool areNamesHidden() const noexcept { return m_areNamesHidden; }
    void setInDoubt(std::set<core::project::ShotId> shots);
    /// Shots of a kind, whatever else is asked for.
    [[nodiscard]] int count(Filter kind) const;
    /// Reads the store again after this change.
    void update(const core::project::Store::Change& change);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] core::project::ShotId shotAt(int row) const;
    /// Absent when it is not assigned.
    [[nodiscard]] std::optional<core::project::CellId> cellAt(int row) const;
    /// Whether shots of a cell follow each other as they were filmed, and names may be seen.
    [[nodiscard]] bool mayGroup() const noexcept {
        return m_sort == Sort::Film && !m_areNamesHidden;
    }
    /// What a head above this row says of its cell: all its shots, also those that are not shown.
    struct Head {
        QString name{};  ///< implement and hitter
        QString implement{};
        QString hitter{};
        std::size_t hitterPlace{};  ///< among the hitters of the project
        int decided{};
        int shots{};
    };
    [[nodiscard]] Head headAt(int row) const;
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
    void sortRows();
    void tell(core::project::ShotId shot);
    void countCells();
    [[nodiscard]] bool passes(Filter filter, const core::project::Shot& shot) const;
    [[nodiscard]] bool isAskedFor(const core::project::Shot& shot, std::size_t position) const;
    [[nodiscard]] bool hasWords(const core::project::Shot& shot, std::size_t position) const;
    [[nodiscard]] static QString numberText(std::size_t position);
    [[nodiscard]] std::optional<core::Measured<core::Rpm>> rateOf(
        const core::project::Shot& shot) const;
    [[nodiscard]] QString cellOf(const core::project::Shot& shot) const;
    [[nodiscard]] QString toolTipOf(const core::project::Shot& shot) const;

    const core::project::Store& m_store;
    ShotFacts* m_facts{};
    core::project::SnapshotPtr m_snapshot;
    std::vector<core::project::ShotId> m_order;  ///< all shots
    std::vector<std::size_t> m_rows;             ///< places in m_order that are shown
    std::set<core::project::ShotId> m_inDoubt;
    Filter m_filter{Filter::All};
    Narrowing m_narrowing;
    Sort m_sort{Sort::Film};
    bool m_areNamesHidden{false};
    struct Count {
        int decided{};
        int shots{};
    };
    std::map<std::optional<core::project::CellId>, Count> m_counts;  ///< by cell
};

}  // namespace ui::reading

#pragma once

#include <QAbstractTableModel>
#include <vector>

#include "core/project/snapshot.h"
#include "core/words/flight.h"

namespace ui::models {

/// A list of shots with their cell and how they stand: those of one clip, or those behind a number.
/// Confined to the thread of the store.
class ShotTableModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { kShot, kFrames, kCell, kRate, kStanding, kNote, kFlight };
    /// From kFlight on: speed, launch angle and the other numbers of the flight.
    static constexpr int kColumnCount = kFlight + static_cast<int>(core::words::kFlightNumbers);

    explicit ShotTableModel(core::project::SnapshotPtr snapshot, QObject* parent = nullptr);

    /// The project is another now; what was to be shown stays to be shown.
    void update(core::project::SnapshotPtr snapshot);
    void showClip(std::optional<core::project::ClipId> clip);
    /// areOfOne: all of one implement, so kCell names the hitter alone.
    void showShots(std::vector<core::project::ShotId> shots, bool areOfOne = false);
    /// Of the kept shots that are shown, as far as they have one.
    [[nodiscard]] std::vector<core::reading::ShotFlight> flights() const;
    [[nodiscard]] core::project::ShotId shotAt(int row) const;
    [[nodiscard]] int rowOf(core::project::ShotId shot) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    void refresh();
    [[nodiscard]] QString textOf(const core::project::Shot& shot, int column) const;
    /// Null where the shot has none.
    [[nodiscard]] const core::reading::ShotFlight* flightOf(const core::project::Shot& shot) const;
    [[nodiscard]] QString flightText(const core::project::Shot& shot, std::size_t number) const;
    [[nodiscard]] QString otherUnitOf(const core::project::Shot& shot, int column) const;
    [[nodiscard]] QString whoseOf(const core::project::Shot& shot) const;

    core::project::SnapshotPtr m_snapshot;
    std::optional<core::project::ClipId> m_clip;
    std::vector<core::project::ShotId> m_wanted;  ///< of showShots; some may be gone for now
    std::vector<core::project::ShotId> m_shots;   ///< shown
    bool m_areOfOne{false};
    /// A reading never changes, nor does its flight; taken apart when it is first shown.
    mutable std::map<core::project::ReadingId, std::optional<core::reading::ShotFlight>> m_flights;
};

}  // namespace ui::models

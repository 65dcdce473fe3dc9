#pragma once

#include <QAbstractTableModel>
#include <filesystem>
#include <map>
#include <set>
#include <string>

#include "core/project/snapshot.h"

namespace ui::models {

/// The clips of a project as rows: what is known of their clock and what is wrong with them.
/// Confined to the thread of the store. Holds the newest snapshot, no state of its own.
class ClipTableModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { kName, kLength, kPlays, kCaptured, kShots, kCells, kRemarks, kColumnCount };
    enum Role { kClipIdRole = Qt::UserRole + 1, kSortRole };

    explicit ClipTableModel(core::project::SnapshotPtr snapshot, QObject* parent = nullptr);

    /// The project is another now. Resets when the clips are others.
    void update(core::project::SnapshotPtr snapshot);
    /// Clips whose file is not where the project says.
    void setMissing(std::set<core::project::ClipId> clips);
    [[nodiscard]] bool isMissing(core::project::ClipId clip) const {
        return m_missing.contains(clip);
    }
    /// Clips that differ from the set-up of their day, and in what, in a sentence.
    void setDifferent(std::map<core::project::ClipId, std::string> clips);
    [[nodiscard]] core::project::ClipId clipAt(int row) const;
    [[nodiscard]] int rowOf(core::project::ClipId clip) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    struct ClipShots {
        int count{};
        std::set<core::project::CellId> cells;
        bool hasLooseShot{};
    };
    void countShots();
    [[nodiscard]] QString textOf(const core::project::Clip& clip, int column) const;
    [[nodiscard]] QString cellsOf(core::project::ClipId clip) const;

    core::project::SnapshotPtr m_snapshot;
    std::map<core::project::ClipId, ClipShots> m_shots;
    std::set<core::project::ClipId> m_missing;
    std::map<core::project::ClipId, std::string> m_different;
};

}  // namespace ui::models

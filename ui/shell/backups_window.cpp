#include "ui/shell/backups_window.h"

#include <QDateTime>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLocale>
#include <QPushButton>
#include <QSpinBox>
#include <QTableWidget>
#include <QVBoxLayout>

#include "ui/models/local_time.h"
#include "ui/shell/backup_keeper.h"
#include "ui/style/rank.h"
#include "ui/style/tabular_font.h"

namespace ui::shell {
namespace {

using core::project::BackupPreview;

enum Column { When, Shots, Kept, Readings, Size, LastLine, kColumns };

QTableWidgetItem* cell(const QString& text, bool isNumber = false) {
    auto* item = new QTableWidgetItem{text};
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    item->setTextAlignment((isNumber ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    item->setToolTip(text);
    return item;
}

}  // namespace

BackupsWindow::BackupsWindow(const std::filesystem::path& project, bridge::JobRunner& jobs,
                             BackupKeeper& keeper, QWidget* parent)
    : QDialog{parent},
      m_project{project},
      m_jobs{jobs},
      m_hint{new QLabel},
      m_table{new QTableWidget{0, kColumns}},
      m_restore{new QPushButton{tr("&Restore")}} {
    setWindowTitle(tr("Copies"));
    setAttribute(Qt::WA_DeleteOnClose);
    m_hint->setWordWrap(true);
    m_hint->setTextFormat(Qt::PlainText);
    m_table->setObjectName(QStringLiteral("backups"));
    m_table->setHorizontalHeaderLabels(
        {tr("made"), tr("shots"), tr("kept"), tr("readings"), tr("size, kB"), tr("last change")});
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->verticalHeader()->hide();
    m_table->horizontalHeader()->setStretchLastSection(true);
    m_table->setFont(style::tabularFont(font()));
    m_restore->setObjectName(QStringLiteral("restore"));
    m_restore->setToolTip(
        tr("The project becomes what it was then; what it is now is kept beside "
           "it under another name"));
    auto* minutes = new QSpinBox;
    minutes->setObjectName(QStringLiteral("backup_minutes"));
    minutes->setRange(0, 240);
    minutes->setSuffix(tr(" min"));
    minutes->setSpecialValueText(tr("only on opening"));
    minutes->setValue(BackupKeeper::minutes());
    minutes->setToolTip(tr("How often a copy is made while you work, when something has changed"));
    auto* every = new QLabel{tr("&A copy every")};
    every->setBuddy(minutes);
    auto* close = new QPushButton{tr("&Close")};
    style::setRank(close, style::Rank::Quiet);
    auto* row = new QHBoxLayout;
    row->addWidget(every);
    row->addWidget(minutes);
    row->addStretch(1);
    row->addWidget(m_restore);
    row->addWidget(close);
    auto* column = new QVBoxLayout{this};
    column->addWidget(m_hint);
    column->addWidget(m_table, 1);
    column->addLayout(row);
    connect(close, &QPushButton::clicked, this, &QDialog::reject);
    connect(minutes, &QSpinBox::valueChanged, &keeper, &BackupKeeper::setMinutes);
    connect(m_table, &QTableWidget::itemSelectionChanged, this, &BackupsWindow::refreshButton);
    connect(m_restore, &QPushButton::clicked, this, [this] {
        const int chosen = m_table->currentRow();
        const auto file = m_previews[static_cast<std::size_t>(chosen)].backup.file;
        reject();
        Q_EMIT restoreWanted(file);
    });
    connect(&keeper, &BackupKeeper::made, this, &BackupsWindow::look);
    resize(820, 380);
    look();
    refreshButton();
}

void BackupsWindow::look() {
    if (m_isLooking) {
        m_isOld = true;
        return;
    }
    m_hint->setText(tr("Looking into the copies…"));
    m_isLooking = true;
    m_isOld = false;
    refreshButton();
    m_jobs.start<Previews>(
        tr("Looking into the copies"),
        [project = m_project](bridge::JobContext& context) -> core::Result<Previews> {
            Previews previews;
            for (const auto& backup : core::project::backupsOf(project)) {
                if (context.stopToken().stop_requested()) {
                    break;
                }
                previews.push_back(core::project::previewOf(backup));
            }
            return previews;
        },
        this,
        [this](const core::Result<Previews>& previews) {
            m_isLooking = false;
            if (m_isOld) {
                look();
            } else if (previews) {
                showPreviews(previews.value());
            }
            refreshButton();
        });
}

void BackupsWindow::showPreviews(const Previews& previews) {
    m_previews = previews;
    const QString folder = QString::fromStdString(core::project::backupFolder(m_project).string());
    m_hint->setText(previews.empty()
                        ? tr("No copies yet. The first is made in %1 while you work.").arg(folder)
                        : tr("Copies of the project in %1, newest first.").arg(folder));
    m_table->setRowCount(static_cast<int>(previews.size()));
    const QLocale locale;
    for (int row = 0; row < m_table->rowCount(); ++row) {
        const BackupPreview& preview = previews[static_cast<std::size_t>(row)];
        const auto number = [&locale](std::size_t value) {
            return cell(locale.toString(static_cast<qulonglong>(value)), true);
        };
        m_table->setItem(
            row, When,
            cell(models::localTime(preview.backup.madeAt, QStringLiteral("yyyy-MM-dd HH:mm:ss"))));
        m_table->setItem(
            row, Size,
            cell(locale.toString(static_cast<double>(preview.backup.bytes) / 1000.0, 'f', 0),
                 true));
        if (!preview.trouble.empty()) {
            m_table->setItem(row, LastLine, cell(QString::fromStdString(preview.trouble)));
            continue;
        }
        m_table->setItem(row, Shots, number(preview.shots));
        m_table->setItem(row, Kept, number(preview.kept));
        m_table->setItem(row, Readings, number(preview.readings));
        m_table->setItem(
            row, LastLine,
            cell(preview.lastLine ? QString::fromStdString(preview.lastLine->what) : QString{}));
    }
    m_table->resizeColumnsToContents();
    if (!previews.empty() && m_table->currentRow() < 0) {
        m_table->selectRow(0);
    }
    refreshButton();
}

void BackupsWindow::refreshButton() {
    const int row = m_table->selectionModel()->hasSelection() ? m_table->currentRow() : -1;
    m_restore->setEnabled(!m_isLooking && row >= 0 &&
                          static_cast<std::size_t>(row) < m_previews.size() &&
                          m_previews[static_cast<std::size_t>(row)].trouble.empty());
}

}  // namespace ui::shell

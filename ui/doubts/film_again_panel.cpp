#include "ui/doubts/film_again_panel.h"

#include <QLabel>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

#include "core/base/files.h"
#include "core/base/words.h"
#include "core/doubts/decisions.h"
#include "core/project/clip_location.h"
#include "ui/models/sentence_table_model.h"
#include "ui/style/ask.h"
#include "ui/style/data_table.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"

namespace ui::doubts {

FilmAgainPanel::FilmAgainPanel(core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_words{new QLabel},
      m_rows{new models::SentenceTableModel{
          {tr("Implement"), tr("Condition"), tr("Hitter"), tr("Shots")}, this}},
      m_table{style::makeDataTable(m_rows)},
      m_print{new QPushButton{tr("Save list and cards as PDF…")}} {
    m_print->setObjectName(QStringLiteral("printFilmAgain"));
    style::setRank(m_print, style::Rank::Primary);
    m_print->setToolTip(tr("The list of what to film again, and a slate card for each cell"));
    m_table->setAccessibleName(tr("What is to be filmed again"));
    style::showPlainWords(m_words);
    auto* layout = new QVBoxLayout{this};
    layout->addWidget(m_words);
    layout->addWidget(m_table, 1);
    layout->addWidget(m_print, 0, Qt::AlignLeft);
    connect(m_print, &QPushButton::clicked, this, &FilmAgainPanel::askForFile);
    m_listening = store.listen([this](const auto&) { refresh(); });
    refresh();
}

void FilmAgainPanel::refresh() {
    std::vector<models::SentenceTableModel::Row> rows;
    for (const auto& visit : core::doubts::filmList(*m_store.snapshot())) {
        rows.push_back({{QString::fromStdString(visit.card.implement),
                         QString::fromStdString(visit.card.condition),
                         QString::fromStdString(visit.card.hitter), QString::number(visit.shots)},
                        {},
                        {}});
    }
    const bool isEmpty = rows.empty();
    m_title = isEmpty ? tr("To film again") : tr("To film again %1").arg(rows.size());
    Q_EMIT titleChanged();
    m_rows->show(std::move(rows));
    m_table->setVisible(!isEmpty);
    m_print->setVisible(!isEmpty);
    m_words->setText(isEmpty
                         ? tr("Nothing is to be filmed again. Choose a doubtful shot or cell and "
                              "press F to put it on this list.")
                         : tr("Shots that were set aside to be filmed again, by cell."));
}

void FilmAgainPanel::askForFile() {
    style::askWhereToSave(
        *this, {tr("Save the list"), QStringLiteral("film-again.pdf"), tr("PDF (*.pdf)")},
        [this](const QString& file) { print(file); });
}

bool FilmAgainPanel::print(const QString& file) {
    const auto pdf = core::plan::filmListPdf(core::doubts::filmList(*m_store.snapshot()));
    if (!pdf) {
        Q_EMIT said(QString::fromStdString(pdf.error().message));
        return false;
    }
    // Whoever chose the file was asked about one that is there.
    const std::filesystem::path target{file.toStdString()};
    const auto done =
        core::writeFile(target, pdf.value(),
                        {core::Existing::Overwrite,
                         core::project::filesInUse(m_store.file(), *m_store.snapshot())});
    if (!done) {
        Q_EMIT said(QString::fromStdString(done.error().message));
        return false;
    }
    Q_EMIT said(tr("Saved %1.").arg(file));
    return true;
}

}  // namespace ui::doubts

#pragma once

#include <QWidget>
#include <memory>

#include "core/doubts/find_doubts.h"
#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

class QCheckBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace ui::findings {

/// Writes the findings for others into a folder, in the background. The choices and the folder that
/// was asked for last are kept for the next time; author, licence and how to cite in the project.
/// Confined.
class PublishPanel : public QWidget {
    Q_OBJECT

public:
    PublishPanel(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent = nullptr);

    /// The newest doubts; they are published when they are of the project as it is then.
    void setDoubts(core::doubts::DoubtsPtr doubts) { m_doubts = std::move(doubts); }

    /// Asks for a folder.
    void choose();
    /// Publishes into a folder with the options shown. Files of others are left alone.
    void publishTo(const QString& folder);

Q_SIGNALS:
    /// What happened, in a sentence or two.
    void said(const QString& text);

private:
    void say(const QString& text);
    void showCredits();
    void keepCredits();

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    core::doubts::DoubtsPtr m_doubts;
    QCheckBox* m_blind;
    QCheckBox* m_films;
    QLineEdit* m_author;
    QLineEdit* m_licence;
    QLineEdit* m_citeAs;
    QPushButton* m_publish;
    QLabel* m_words;
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::findings

;;; verse-mode.el --- Manuscripts of rhyming verse, read by dandle  -*- lexical-binding: t; -*-

;; Author: the dandle authors
;; Version: 0.1
;; Package-Requires: ((emacs "26.3") (eglot "1.9"))
;; Keywords: text, languages
;; SPDX-License-Identifier: MIT

;;; Commentary:

;; A mode for .verse files, and what Eglot needs to start dandle for them.

;;; Code:

(defgroup verse nil "Manuscripts of rhyming verse." :group 'text)

(defcustom verse-dandle-program "dandle"
  "The program that reads verse, with its path where it is not on the PATH."
  :type 'string)

(defvar verse-mode-font-lock-keywords
  '(("^#\\{1,6\\} .*$" . font-lock-function-name-face)
    ("\\[[^]\n]*\\]" . font-lock-comment-face)
    ("<!--.*?-->" . font-lock-comment-face)
    ("^[ \t]*>.*$" . font-lock-doc-face)
    ("\\*[^* \t\n][^*\n]*\\*" . 'bold))
  "Headings, art notes, directives, reviewer's notes and stressed words.")

(defvar verse-mode-syntax-table
  (let ((table (make-syntax-table text-mode-syntax-table)))
    ;; The curly apostrophe belongs to its word, as text-mode has the straight one.
    (modify-syntax-entry ?’ "w p" table)
    (modify-syntax-entry ?“ "(”" table)
    (modify-syntax-entry ?” ")“" table)
    table)
  "Words and brackets of verse.")

;;;###autoload
(define-derived-mode verse-mode text-mode "Verse"
  "Major mode for manuscripts of rhyming verse."
  (setq-local font-lock-defaults '(verse-mode-font-lock-keywords t))
  (setq-local comment-start "<!-- ")
  (setq-local comment-end " -->")
  (setq-local outline-regexp "#+ "))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.verse\\'" . verse-mode))

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs
               (cons '(verse-mode :language-id "verse")
                     (lambda (&rest _) (list verse-dandle-program "serve")))))

(provide 'verse-mode)
;;; verse-mode.el ends here

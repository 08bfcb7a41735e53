;;; check.el --- What a writer sees in Emacs  -*- lexical-binding: t; -*-

;; Called by check.sh, in a folder with demo.verse and what the command prints
;; of it.

;;; Code:

(package-initialize)
(require 'verse-mode)
(require 'eglot)
(require 'flymake)
(require 'json)

(setq verse-dandle-program (getenv "DANDLE")
      eglot-sync-connect 10
      eglot-autoshutdown nil
      eglot-confirm-server-initiated-edits nil
      flymake-no-changes-timeout 0.1
      eglot-send-changes-idle-time 0.1
      backup-inhibited t
      create-lockfiles nil)

(defun check-say (&rest arguments)
  "Print ARGUMENTS as a line of the result."
  (princ (concat "emacs: " (apply #'format arguments) "\n")))

(defun check-wait (what predicate)
  "Let events run until PREDICATE holds, else fail for WHAT."
  (let ((end (+ (float-time) 10)))
    (while (and (not (funcall predicate)) (< (float-time) end))
      (accept-process-output nil 0.05))
    (unless (funcall predicate) (error "No %s" what))))

(defun check-read (file)
  "The only file in the command's output in FILE."
  (let ((json-object-type 'alist) (json-array-type 'list))
    (car (alist-get 'files (json-read-file file)))))

(defun check-place (line column)
  "The buffer position of LINE and COLUMN, both from 1."
  (save-excursion
    (goto-char (point-min))
    (forward-line (1- line))
    (+ (point) (1- column))))

(defun check-shown ()
  "The places of the diagnostics, in order."
  (sort (mapcar (lambda (d) (list (flymake-diagnostic-beg d) (flymake-diagnostic-end d)))
                (flymake-diagnostics))
        (lambda (a b) (if (= (car a) (car b)) (< (cadr a) (cadr b)) (< (car a) (car b))))))

(defun check-changed ()
  "Tell the server of the change, which an idle timer does outside batch."
  (eglot--signal-textDocument/didChange))

(defun check-first (list n)
  "The first N of LIST."
  (butlast list (max 0 (- (length list) n))))

(defun check-fixable (places)
  "The first of PLACES with a fix that is more than accepting it, and the fix."
  (catch 'found
    (dolist (place places)
      (dolist (action (eglot-code-actions (car place) (cadr place) "quickfix"))
        (unless (string-prefix-p "Accept" (plist-get action :title))
          (throw 'found (cons place action)))))))

(find-file (expand-file-name "demo.verse"))
(unless (eq major-mode 'verse-mode) (error "The mode is %s" major-mode))
(apply #'eglot (eglot--guess-contact))
(unless (eglot-managed-p) (error "Eglot does not manage the buffer"))
(flymake-mode 1)
(flymake-start)

;; Zero-width findings are shown a character wide: only starts are compared then.
(let* ((found (alist-get 'findings (check-read "found.json")))
       (want (sort (mapcar (lambda (f)
                             (list (check-place (alist-get 'line f) (alist-get 'column f))
                                   (check-place (alist-get 'endLine f) (alist-get 'endColumn f))))
                           found)
                   (lambda (a b) (if (= (car a) (car b)) (< (cadr a) (cadr b)) (< (car a) (car b))))))
       (line (car (alist-get 'lines (car (alist-get 'stanzas (check-read "scanned.json"))))))
       (feet (alist-get 'feet line)))
  (when (< (length want) 3) (error "Only %d findings in a manuscript with planted faults" (length want)))
  (condition-case nil
      (check-wait "findings" (lambda () (equal (check-shown) want)))
    (error (error "The command finds %S, Emacs shows %S" want (check-shown))))
  (check-say "%d findings over the right words" (length want))

  (goto-char (check-place (alist-get 'line line) 2))
  (let (said)
    (eglot-hover-eldoc-function (lambda (text &rest _) (setq said (substring-no-properties text))))
    (check-wait "hover" (lambda () said))
    (unless (string-match-p (regexp-quote feet) (string-replace " " "" said)) ; however they are spaced
      (error "The hover lacks %s: %s" feet said))
    (check-say "the hover of line %d shows %s" (alist-get 'line line) feet))

  (let ((start (line-beginning-position)) (text (alist-get 'text line)))
    (delete-region start (line-end-position))
    (insert "The clock chimed.")
    (check-changed)
    (check-wait "finding after a line was broken" (lambda () (> (length (check-shown)) (length want))))
    (delete-region start (line-end-position))
    (insert text)
    (check-changed)
    (check-wait "end of that finding" (lambda () (equal (check-shown) want)))
    (check-say "a broken line is marked, and a mended one is not"))

  ;; The second line answers the first: without its last word it is offered rhymes.
  (goto-char (check-place (1+ (alist-get 'line line)) 1))
  (let* ((text (buffer-substring (line-beginning-position) (line-end-position)))
         (kept (replace-regexp-in-string "[^ ]+\\'" "" text)))
    (delete-region (line-beginning-position) (line-end-position))
    (insert kept)
    (check-changed)
    (let* ((capf (eglot-completion-at-point))
           (rhymes (all-completions "" (nth 2 capf))))
      (when (< (length rhymes) 3) (error "Only %d rhymes are offered" (length rhymes)))
      (check-say "%d rhymes offered for the end of line %d: %s …" (length rhymes) (1+ (alist-get 'line line))
                 (mapconcat #'substring-no-properties (check-first rhymes 3) ", ")))
    (delete-region (line-beginning-position) (line-end-position))
    (insert text)
    (check-changed)
    (check-wait "end of the finding of the cut line" (lambda () (equal (check-shown) want))))

  ;; A fix that is taken makes its mark go.
  (let* ((found (check-fixable (check-shown)))
         (action (cdr found)))
    (unless action (error "No finding has a fix"))
    ;; One action of a kind is carried out without asking.
    (eglot--read-execute-code-action (list action) (eglot-current-server) "quickfix")
    (check-changed)
    (check-wait "end of the finding that was mended" (lambda () (< (length (check-shown)) (length want))))
    (check-say "the fix \"%s\" makes its mark go" (plist-get action :title))))

(set-buffer-modified-p nil)
(eglot-shutdown (eglot-current-server))
(check-say "ok, in Emacs %s" emacs-version)
;;; check.el ends here

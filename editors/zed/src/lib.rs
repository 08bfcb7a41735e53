//! Starts dandle for manuscripts of verse in Zed.

use zed_extension_api::{self as zed, LanguageServerId, Result};

struct Dandle;

impl zed::Extension for Dandle {
    fn new() -> Self {
        Dandle
    }

    fn language_server_command(
        &mut self,
        _server: &LanguageServerId,
        worktree: &zed::Worktree,
    ) -> Result<zed::Command> {
        let command = worktree
            .which("dandle")
            .ok_or("dandle is not on the PATH; run `go install ./cmd/dandle`")?;
        Ok(zed::Command {
            command,
            args: vec!["serve".into()],
            env: worktree.shell_env(),
        })
    }
}

zed::register_extension!(Dandle);

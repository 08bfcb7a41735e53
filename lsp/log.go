package lsp

import (
	"go.lsp.dev/protocol"
	"go.uber.org/zap"
	"go.uber.org/zap/zapcore"
)

// newLogger logs to the configured writer, and hands entries from info upwards
// to the client. No entry from info upwards holds a manuscript's text.
func newLogger(config Config, client chan<- protocol.LogMessageParams) *zap.Logger {
	cores := []zapcore.Core{&clientCore{LevelEnabler: zap.InfoLevel, messages: client}}
	if config.Log != nil {
		level := zap.InfoLevel
		if config.Debug {
			level = zap.DebugLevel
		}
		encoder := zap.NewProductionEncoderConfig()
		encoder.EncodeTime = zapcore.ISO8601TimeEncoder
		sink := zapcore.Lock(zapcore.AddSync(config.Log))
		cores = append(cores, zapcore.NewCore(zapcore.NewConsoleEncoder(encoder), sink, level))
	}
	return zap.New(zapcore.NewTee(cores...))
}

// clientCore turns entries into window/logMessage. It neither logs nor waits: a
// full queue drops the message.
type clientCore struct {
	zapcore.LevelEnabler
	messages chan<- protocol.LogMessageParams
	fields   []zapcore.Field
}

// With implements zapcore.Core.
func (c *clientCore) With(fields []zapcore.Field) zapcore.Core {
	return &clientCore{c.LevelEnabler, c.messages, append(c.fields[:len(c.fields):len(c.fields)], fields...)}
}

// Check implements zapcore.Core.
func (c *clientCore) Check(e zapcore.Entry, checked *zapcore.CheckedEntry) *zapcore.CheckedEntry {
	if c.Enabled(e.Level) {
		return checked.AddCore(e, c)
	}
	return checked
}

// Write implements zapcore.Core.
func (c *clientCore) Write(e zapcore.Entry, fields []zapcore.Field) error {
	kind := protocol.MessageTypeInfo
	switch {
	case e.Level >= zap.ErrorLevel:
		kind = protocol.MessageTypeError
	case e.Level == zap.WarnLevel:
		kind = protocol.MessageTypeWarning
	}
	text := e.Message
	for _, f := range append(c.fields[:len(c.fields):len(c.fields)], fields...) {
		if err, ok := f.Interface.(error); ok && f.Type == zapcore.ErrorType {
			text += ": " + err.Error()
		}
	}
	select {
	case c.messages <- protocol.LogMessageParams{Type: kind, Message: text}:
	default:
	}
	return nil
}

// Sync implements zapcore.Core.
func (c *clientCore) Sync() error { return nil }

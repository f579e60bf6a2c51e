# Two commands do everything: `make plan` and `make test`.
.PHONY: plan page web test bench bench-web crosscheck tools clean

GO ?= go
WASM_EXEC = $(shell $(GO) env GOROOT)/lib/wasm/go_js_wasm_exec

# The plan of the example, from a fresh clone.
plan: bin/scantling
	./bin/scantling plan examples/sorting-table.yaml -o out/sorting-table

bin/scantling: $(shell find cmd internal web/*.go -name '*.go' -o -name '*.ttf' -o -name '*.csv' 2>/dev/null) go.mod go.sum
	$(GO) build -trimpath -o $@ ./cmd/scantling

# The command with its live page: scantling publish. Scripts, and the engine as
# WebAssembly, go to web/dist, which the command holds inside.
page: web
	$(GO) build -trimpath -o bin/scantling ./cmd/scantling

web: tools web/node_modules
	web/node_modules/.bin/tsc -p web
	node web/build.mjs

web/node_modules: web/package-lock.json
	npm ci --prefix web --no-audit --no-fund
	touch $@

# Everything a machine can check: native, then the engine again as WebAssembly.
test: tools web
	$(GO) vet ./...
	$(GO) test ./...
	GOOS=js GOARCH=wasm $(GO) test -exec $(WASM_EXEC) $(ENGINE)

# The engine: what must also run in a browser.
ENGINE = ./internal/...

# What the tests read PDFs with, Node to run WebAssembly and build the page, a
# browser to try it in.
tools:
	@for t in pdftotext qpdf node xz chromium; do command -v $$t >/dev/null || missing="$$missing $$t"; done; \
	if [ -n "$$missing" ]; then \
	  sudo=; [ "$$(id -u)" = 0 ] || sudo=sudo; \
	  $$sudo apt-get update -q && $$sudo apt-get install -y -q poppler-utils qpdf nodejs xz-utils chromium; \
	fi

# Speed, never part of the tests. SCENES and CUTTING name folders of public
# benchmark instances; without them only the project's own pieces are timed.
bench:
	$(GO) test -run '^$$' -bench . -benchmem ./internal/plan
	$(GO) test -run '^$$' -bench . -benchmem ./internal/joint
	$(GO) test -run '^$$' -bench . -benchmem ./internal/order
	$(GO) test -run '^$$' -bench . -benchmem ./internal/geom $(if $(SCENES),-args -scenes $(abspath $(SCENES)))
	$(GO) test -run '^$$' -bench . -benchmem ./internal/drawing $(if $(SCENES),-args -scenes $(abspath $(SCENES)))
	$(GO) test -run '^$$' -bench . -benchmem ./internal/frame $(if $(SCENES),-args -scenes $(abspath $(SCENES)))
	$(if $(CUTTING),$(GO) run ./cmd/cutbench $(wildcard $(abspath $(CUTTING))/*.txt))

# The cutting planner against a general solver, on made-up problems of the size
# of a piece or two. Never part of the tests: it wants coinor-cbc from Debian.
crosscheck:
	@command -v cbc >/dev/null || { sudo=; [ "$$(id -u)" = 0 ] || sudo=sudo; \
	  $$sudo apt-get update -q && $$sudo apt-get install -y -q coinor-cbc; }
	$(GO) run ./tools/crosscheck

# How fast the page is, in a browser.
bench-web: tools web
	$(GO) test -run '^$$' -bench . -benchtime 1x ./web

clean:
	rm -rf bin out

# What `run` and `long` share: the targets, the harness's binary, and the inputs that they begin with.

# A write to a browser that has gone is an error to handle, as in the program itself; libFuzzer's main leaves the signal on.
trap '' PIPE

readonly TARGETS=(entries bib captions figures profiles settings words requests)
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../.." && pwd)
target=$(cd "$root" && cargo metadata --no-deps --format-version 1 \
  | node -p 'JSON.parse(require("fs").readFileSync(0)).target_directory')
readonly here root target
readonly work=$target/fuzz
harness=

# Builds the harness beside the tests, whose features its dependencies share.
build() {
  local said
  said=$(cd "$root" && RUSTC_WORKSPACE_WRAPPER=$here/rustc cargo test --locked --no-run \
    --config 'profile.dev.package.steadyleaf.opt-level=1' -p steadyleaf -p steadyleaf-fuzz --test fuzz 2>&1) || {
    echo "$said"
    return 1
  }
  harness=$(sed -n 's/^ *Executable .* (\(.*\))$/\1/p' <<< "$said")
  [[ $harness == /* ]] || harness=$root/$harness
}

# named FOLDER FILE…: files of the workspace, each with its name on the first line.
named() {
  local folder=$1 file
  shift
  for file in "$@"; do
    { echo "$file"; cat "$file"; } > "$folder/$(tr / + <<< "$file")"
  done
}

# seeds TARGET FOLDER: inputs from the demonstration and from the sample that `begin` writes.
seeds() {
  local folder=$2 sample=$root/src/workspace/sample file count=0
  mkdir -p "$folder"
  case $1 in
    entries)
      for file in "$root"/content/exercises/*.md; do
        { echo content/exercises/heel-drop.md; cat "$file"; } > "$folder/$(basename "$file")"
      done
      for file in "$root"/content/series/*/week-*.md; do
        { echo content/series/first-steps/week-01.md; cat "$file"; } > "$folder/$(basename "$file")"
      done
      (cd "$sample" && named "$folder" content/exercises/*.md content/pages/*.md content/series/*/*) ;;
    bib) cp "$root/content/references.bib" "$folder/demonstration"; cp "$sample/content/references.bib" "$folder/sample" ;;
    captions)
      while read -r file; do
        { echo "content/series/first-steps/captions/week-01.en.${file##*.}"; cat "$file"; } > "$folder/$((count += 1))"
      done < <(find "$root/content" "$root/tests/outside" -path '*/node_modules' -prune -o \( -name '*.vtt' -o -name '*.srt' \) -print)
      printf 'a.srt\n1\n00:00:01,000 --> 00:00:02,500\nStand tall.\n' > "$folder/subrip" ;;
    figures)
      for file in "$root"/content/exercises/*.md; do
        awk '/^```$/ { on = 0 } /^\[\[figure\]\]/ { on = 1 } on' "$file" > "$folder/$(basename "$file")"
      done ;;
    profiles)
      for file in $(grep -o '^\[[a-z-]*\]' "$root/src/model/precautions.toml" | tr -d '[]') unsteady; do
        printf 'name = "Q. Quill"\nprecautions = ["%s"]\ndays = ["monday", "thursday"]\nminutes = 30\nsize = 24\n' "$file" > "$folder/$file"
      done
      printf 'name = "Q. Quill"\nprecautions = ["unsteady", "spine-fracture"]\nequipment = ["chair"]\npaper = "letter"\n\n[[cleared]]\nexercise = "heel-drop"\nof = ["spine-fracture"]\nby = "Dr. A. Reviewer"\non = 2026-01-02\n\n[[prefer]]\nexercise = "heel-drop"\nform = "Seated heel press"\nbecause = "Her knee."\n' > "$folder/whole" ;;
    settings)
      (cd "$sample" && named "$folder" site.toml content/series/first-steps/series.toml)
      { echo site.toml; cat "$root/site.toml"; } > "$folder/site"
      { echo content/series/first-steps/series.toml; cat "$root"/content/series/lantern-hill/series.toml; } > "$folder/series" ;;
    words) (cd "$root"/themes/*/ && named "$folder" words/*) ;;
    requests)
      for file in / /index.html /exercises/heel-drop.html /media/film.mp4 /-/page.js /-/panel/index.html /-/excerpt/1/0 /feed.xml; do
        printf 'GET %s HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nConnection: close\r\n\r\n' "$file" > "$folder/$((count += 1))"
      done
      printf 'GET /media/film.mp4 HTTP/1.1\r\nHost: localhost:PORT\r\nRange: bytes=5-9\r\n\r\n' > "$folder/range" ;;
  esac
}

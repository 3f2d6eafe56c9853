# A folder with forty times the same helmet, and a rule from each to every other one: `sh docs/examples/crowd.sh FOLDER`.
set -e
lidladder init "$1" --demo > "$1.log"
rm "$1.log" "$1"/helmets/[!q]*
for n in $(seq 40); do
    sed "s/quorrie/q$n/; s/Quorrie/Q$n/" "$1/helmets/quorrie.yaml" > "$1/helmets/q$n.yaml"
done
{
    printf 'schema: 1\nedges:\n'
    for a in $(seq 40); do
        for b in $(seq 40); do
            test "$a" = "$b" || echo "  - {from: q$a-plain, reason: too-round, to: q$b-plain, note: narrower}"
        done
    done
} > "$1/fallbacks.yaml"

# Completion of wayfolio for bash.
_wayfolio() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} verb=${COMP_WORDS[1]} words=""
    COMPREPLY=()
    if ((COMP_CWORD == 1)); then
        mapfile -t COMPREPLY < <(compgen -W "plan gather facts report figure evaluate check table compensation schema layouts record verify redraw conformance catalogue history compare certificate batch preview serve --help --version" -- "$word")
        return
    fi
    case $before in
        --paper) words="A4 Letter" ;;
        --unit) words="mm in deg" ;;
        --format) words="svg pdf png" ;;
        --layout)
            mapfile -t COMPREPLY < <(compgen -W "$("${COMP_WORDS[0]}" layouts 2>/dev/null | cut -d' ' -f1)" -- "$word"; compgen -f -- "$word")
            return ;;
        --state | --replace | --series | --figure | --parameter | --dpi | --listen | --workers | --deadline | --against | --axis | --table | --machine | --serial | --customer | --job | --instrument | --on | --travel | --runs | --targets | --seed | --feed | --dwell | --from | --to) return ;;
        --verdict) words="pass fail conditional_pass conditional_fail undecided not_decided" ;;
        -o | --output | --sheet | --index | --into | --facts) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
    esac
    if [[ -z $words ]]; then
        case $verb in
            gather) words="--output --facts --into --state --replace --keep --propose --help" ;;
            plan) words="--travel --unit --runs --targets --seed --one-approach-first --feed --dwell --state --facts --output --sheet --paper --help" ;;
            facts) words="--on --help" ;;
            report) words="--output --layout --paper --fail-on-outside --help" ;;
            figure) words="--series --figure --output --format --narrow --dpi --layout --help" ;;
            evaluate) words="--fail-on-outside --help" ;;
            check) words="--all --json --fail-on-findings --help" ;;
            table) words="--series --output --help" ;;
            compensation) words="--axis --table --output --help" ;;
            schema) words="result facts layout mapping evaluation findings comparison catalogue history verification conformance --help" ;;
            layouts) words="--help" ;;
            record) words="--output --layout --paper --help" ;;
            verify) words="--against --json --help" ;;
            redraw) words="--output --layout --paper --help" ;;
            conformance) words="--json --help" ;;
            catalogue) words="--machine --serial --customer --job --instrument --axis --from --to --due-by --verdict --json --index --as-indexed --help" ;;
            history) words="--machine --serial --customer --axis --parameter --from --to --output --format --layout --json --index --as-indexed --help" ;;
            compare) words="--output --layout --paper --left-and-found --json --help" ;;
            certificate) words="--output --help" ;;
            batch) words="--output --jobs --layout --paper --redraw --shard --merge --plan --json --help" ;;
            preview) words="--port --help" ;;
            serve) words="--listen --socket --token-file --workers --deadline --certificate --key --records --index --batches --samples --describe --help" ;;
        esac
        if [[ $word != -* && $verb == certificate ]]; then
            mapfile -t COMPREPLY < <(compgen -f -X '!*.@(json|pdf)' -- "$word"; compgen -d -- "$word")
            return
        fi
        if [[ $word != -* && $verb == @(verify|redraw|conformance|catalogue|history|compare) ]]; then
            mapfile -t COMPREPLY < <(compgen -f -X '!*.pdf' -- "$word"; compgen -d -- "$word")
            return
        fi
        if [[ $word != -* && $verb != schema ]]; then
            mapfile -t COMPREPLY < <(compgen -f -X '!*.json' -- "$word"; compgen -d -- "$word")
            return
        fi
    fi
    mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")
}
complete -o filenames -F _wayfolio wayfolio

// SPDX-License-Identifier: MIT
// Beside the page, so that it stays quick: {plant, ...} begins, {name, form} asks; each is answered with what it gives.
var begun=new Promise(function(ready){Module.onRuntimeInitialized=ready;}),engine=0,utf8=new TextEncoder();
onmessage=function(e){begun.then(function(){var m=e.data;
function call(name,types,values){return ccall(name,'number',types,values);}
if(m.plant!==undefined)engine=call('web_begin',['string','number','string','number','number','number','string'],
[m.plant,m.plant===null?0:utf8.encode(m.plant).length,m.file,m.units,m.clock===null?NaN:m.clock,m.twelve,m.date]);
postMessage(m.name===undefined?engine!==0:UTF8ToString(call('web_ask',['number','string','string','number'],[engine,m.name,m.form,utf8.encode(m.form).length])));}).catch(fail);};
